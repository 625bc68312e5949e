-- question: The misleading tally: curves of sites that were ever guarded in the season and of sites
--   that never were, each from its first tick, whatever was worn then?
-- works on: scope
-- scope: groups, clock
-- grain: one row per group and tick with someone at risk; ticks between which nobody came or went
--   are one, named by the last
-- columns:
--   ever BOOLEAN     the site was guarded at some followed tick of the season
--   tick BIGINT      number on the clock, from 1, anew each season
--   at_risk BIGINT   sites followed that took part in this tick
--   injuries BIGINT  of them, injured in it
WITH eventful AS (
    SELECT
        bool_or(guarded AND is_followed) OVER (
            PARTITION BY athlete_no, season, area, side
        ) AS ever,
        entry, tick, injured, is_followed
    FROM eventful_sites
),
plain AS (
    SELECT
        c.entry, c.tick,
        (SELECT count(*) FROM scoped_sites) - coalesce(e.eventful, 0) AS sites
    FROM clock_exposures AS c
    LEFT JOIN (
        SELECT athlete_no, count(DISTINCT (area, side)) AS eventful
        FROM eventful_sites
        GROUP BY athlete_no
    ) AS e USING (athlete_no)
    WHERE $purpose <> 'return'
),
changes AS (
    SELECT ever, entry AS after, 1 AS more, 0 AS injuries FROM eventful WHERE is_followed
    UNION ALL
    SELECT ever, tick, -1, injured::INTEGER FROM eventful WHERE is_followed
    UNION ALL
    SELECT false, entry, sites, 0 FROM plain
    UNION ALL
    SELECT false, tick, -sites, 0 FROM plain
),
summed AS (
    SELECT ever, after, sum(more) AS more, sum(injuries) AS injuries
    FROM changes
    GROUP BY ever, after
)
SELECT
    ever,
    lead(after) OVER w AS tick,
    (sum(more) OVER w)::BIGINT AS at_risk,
    (lead(injuries) OVER w)::BIGINT AS injuries
FROM summed
WINDOW w AS (PARTITION BY ever ORDER BY after)
QUALIFY at_risk > 0
ORDER BY tick, ever;
