-- question: At each tick, how many sites were at risk and injured among those that are alike, where
--   some were guarded and some bare?
-- works on: scope
-- scope: groups, clock
-- grain: one row per tick and stratum (body area, sport, sex, position group, setting, two-week
--   block) with both guarded and bare sites at risk
-- columns:
--   area VARCHAR                 stratum
--   sport VARCHAR                stratum
--   sex VARCHAR                  stratum
--   position_group VARCHAR       stratum; NULL where not recorded
--   setting VARCHAR              stratum
--   block BIGINT                 stratum: number of the fortnight
--   tick BIGINT                  number of the session on the clock, from 1, anew each season
--   at_risk_guarded BIGINT       guarded sites followed that took part in this tick
--   injuries_guarded BIGINT      of them, injured in it
--   at_risk_unguarded BIGINT     bare sites followed that took part in this tick
--   injuries_unguarded BIGINT    of them, injured in it
WITH eventful AS (
    SELECT
        area, sport, sex, position_group, setting, block, tick,
        count(*) AS sites,
        count(*) FILTER (is_followed AND guarded) AS n1,
        count(*) FILTER (is_followed AND guarded AND injured) AS d1,
        count(*) FILTER (is_followed AND NOT guarded) AS n0,
        count(*) FILTER (is_followed AND NOT guarded AND injured) AS d0
    FROM eventful_sites
    GROUP BY ALL
    HAVING n1 > 0
),
-- Sites without a story are bare and uninjured: all that take part, less the eventful ones.
athletes AS (
    SELECT sport, sex, position_group, setting, block, tick, count(*) AS athletes
    FROM clock_exposures
    GROUP BY ALL
),
areas AS (SELECT area, count(*) AS sites FROM scoped_sites GROUP BY area)
SELECT
    e.area, e.sport, e.sex, e.position_group, e.setting, e.block, e.tick,
    n1 AS at_risk_guarded,
    d1 AS injuries_guarded,
    n0 + CASE WHEN $purpose = 'return' THEN 0 ELSE a.athletes * x.sites - e.sites END
        AS at_risk_unguarded,
    d0 AS injuries_unguarded
FROM eventful AS e
JOIN areas AS x USING (area)
JOIN athletes AS a
    ON (e.sport, e.sex, e.setting, e.block, e.tick) = (a.sport, a.sex, a.setting, a.block, a.tick)
    AND e.position_group IS NOT DISTINCT FROM a.position_group
WHERE at_risk_unguarded > 0
ORDER BY ALL NULLS LAST;
