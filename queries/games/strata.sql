-- question: At each tick, how many sites were at risk and injured among those that are alike, where
--   some were guarded and some bare?
-- works on: scope
-- scope: groups, clock
-- grain: one row per tick and stratum (body area, sport, sex, position group, setting, two-week
--   block) with both guarded and bare sites at risk; ticks without a change between are one row
-- columns:
--   area VARCHAR                 stratum
--   sport VARCHAR                stratum
--   sex VARCHAR                  stratum
--   position_group VARCHAR       stratum; NULL where not recorded
--   setting VARCHAR              stratum
--   block BIGINT                 stratum: number of the fortnight
--   tick BIGINT                  number on the clock, from 1, anew each season
--   at_risk_guarded BIGINT       guarded sites followed that took part in this tick
--   injuries_guarded BIGINT      of them, injured in it
--   at_risk_unguarded BIGINT     bare sites followed that took part in this tick
--   injuries_unguarded BIGINT    of them, injured in it
--   width BIGINT                 ticks up to this one for which the row stands
WITH sites AS (
    SELECT
        area, sport, sex, position_group, setting, block, entry, tick,
        (is_followed AND guarded)::INTEGER AS n1,
        -- Sites without a story are bare and uninjured: all that take part, less the eventful ones.
        (is_followed AND NOT guarded)::INTEGER - ($purpose <> 'return')::INTEGER AS n0,
        (is_followed AND guarded AND injured)::INTEGER AS d1,
        (is_followed AND NOT guarded AND injured)::INTEGER AS d0
    FROM eventful_sites
    UNION ALL
    SELECT
        x.area, c.sport, c.sex, c.position_group, c.setting, c.block, c.entry, c.tick,
        0, c.athletes * x.sites, 0, 0
    FROM (
        SELECT sport, sex, position_group, setting, block, entry, tick, count(*) AS athletes
        FROM clock_exposures
        GROUP BY ALL
    ) AS c
    CROSS JOIN (SELECT area, count(*) AS sites FROM scoped_sites GROUP BY area) AS x
    WHERE $purpose <> 'return'
),
changes AS (
    SELECT * EXCLUDE (entry, tick, d1, d0), entry AS after, 0 AS d1, 0 AS d0 FROM sites
    UNION ALL
    SELECT * EXCLUDE (entry, tick, n1, n0, d1, d0), -n1, -n0, tick, d1, d0 FROM sites
),
summed AS (
    SELECT
        area, sport, sex, position_group, setting, block, after,
        sum(n1) AS n1, sum(n0) AS n0, sum(d1) AS d1, sum(d0) AS d0
    FROM changes
    GROUP BY ALL
)
SELECT
    area, sport, sex, position_group, setting, block,
    lead(after) OVER w AS tick,
    (sum(n1) OVER w)::BIGINT AS at_risk_guarded,
    (lead(d1) OVER w)::BIGINT AS injuries_guarded,
    (sum(n0) OVER w)::BIGINT AS at_risk_unguarded,
    (lead(d0) OVER w)::BIGINT AS injuries_unguarded,
    tick - after AS width
FROM summed
WINDOW w AS (PARTITION BY area, sport, sex, position_group, setting, block ORDER BY after)
QUALIFY at_risk_guarded > 0 AND at_risk_unguarded > 0
ORDER BY ALL NULLS LAST;
