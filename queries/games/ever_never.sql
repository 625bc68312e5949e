-- question: The misleading tally: curves of sites that were ever guarded in the season and of sites
--   that never were, each from its first tick, whatever was worn then?
-- works on: scope
-- scope: groups, clock
-- grain: one row per group and tick with someone at risk
-- columns:
--   ever BOOLEAN     the site was guarded at some followed tick of the season
--   tick BIGINT      number of the session on the clock, from 1, anew each season
--   at_risk BIGINT   sites followed that took part in this tick
--   injuries BIGINT  of them, injured in it
WITH eventful AS (
    SELECT
        bool_or(guarded AND is_followed) OVER (
            PARTITION BY athlete_no, season, area, side
        ) AS ever,
        tick, injured, is_followed
    FROM eventful_sites
),
plain AS (
    SELECT
        c.tick,
        (SELECT count(*) FROM scoped_sites) - coalesce(e.eventful, 0) AS sites
    FROM clock_exposures AS c
    LEFT JOIN (
        SELECT athlete_no, count(DISTINCT (area, side)) AS eventful
        FROM eventful_sites
        GROUP BY athlete_no
    ) AS e USING (athlete_no)
    WHERE $purpose <> 'return'
),
pieces AS (
    SELECT ever, tick, count(*) AS at_risk, count(*) FILTER (injured) AS injuries
    FROM eventful
    WHERE is_followed
    GROUP BY ever, tick
    UNION ALL
    SELECT false, tick, sum(sites), 0 FROM plain GROUP BY tick
)
SELECT ever, tick, sum(at_risk)::BIGINT AS at_risk, sum(injuries)::BIGINT AS injuries
FROM pieces
GROUP BY ever, tick
HAVING sum(at_risk) > 0
ORDER BY tick, ever;
