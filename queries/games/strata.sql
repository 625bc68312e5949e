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
WITH eventful AS (
    SELECT
        area, sport, sex, position_group, setting, block, entry, tick,
        count(*) FILTER (is_followed AND guarded) AS n1,
        -- Sites without a story are bare and uninjured: all that take part, less the eventful ones.
        count(*) FILTER (is_followed AND NOT guarded)
            - CASE WHEN $purpose = 'return' THEN 0 ELSE count(*) END AS n0,
        count(*) FILTER (is_followed AND guarded AND injured) AS d1,
        count(*) FILTER (is_followed AND NOT guarded AND injured) AS d0
    FROM eventful_sites
    GROUP BY ALL
),
taking_part AS (
    SELECT sport, sex, position_group, setting, block, entry, tick, count(*) AS athletes
    FROM clock_exposures
    WHERE $purpose <> 'return'
    GROUP BY ALL
),
guarded AS (
    SELECT DISTINCT e.area, e.sport, e.sex, e.position_group, e.setting, e.block, x.sites
    FROM eventful AS e
    JOIN (SELECT area, count(*) AS sites FROM scoped_sites GROUP BY area) AS x USING (area)
    WHERE n1 > 0
),
sites AS (
    SELECT * FROM eventful
    UNION ALL
    SELECT
        g.area, t.sport, t.sex, t.position_group, t.setting, t.block, t.entry, t.tick,
        0, t.athletes * g.sites, 0, 0
    FROM taking_part AS t
    JOIN guarded AS g
        ON (t.sport, t.sex, t.setting, t.block) = (g.sport, g.sex, g.setting, g.block)
        AND t.position_group IS NOT DISTINCT FROM g.position_group
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
