-- question: For how long were guarded and unguarded sites exposed, and how often were they injured
--   in that time?
-- works on: scope
-- scope: groups
-- grain: one row per group, guarded and unguarded, always both
-- columns:
--   guarded BOOLEAN            a guard was worn at the site in that session
--   minutes BIGINT             minutes of the site-exposures that have minutes recorded
--   injuries BIGINT            of those, the ones with an injury
--   exposures BIGINT           site-exposures that have minutes recorded
--   untimed_injuries BIGINT    site-exposures with an injury and without minutes
--   untimed_exposures BIGINT   site-exposures without minutes
WITH marked AS (
    SELECT
        CASE WHEN m.set_aside IS NULL THEN m.guarded END AS guarded,  -- NULL: in neither group
        sum(e.minutes) AS minutes,
        count(*) FILTER (m.injured AND e.minutes IS NOT NULL) AS injuries,
        count(e.minutes) AS exposures,
        count(*) FILTER (m.injured AND e.minutes IS NULL) AS untimed_injuries,
        count(*) - count(e.minutes) AS untimed_exposures
    FROM marked_sites($purpose) AS m
    JOIN scoped_exposures AS e USING (session_no, athlete_no)
    GROUP BY 1
),
pieces AS (  -- all sites as if they were bare, then the marked ones put where they belong
    SELECT
        false AS guarded, (SELECT count(*) FROM scoped_sites) AS times, sum(minutes) AS minutes,
        0 AS injuries, count(minutes) AS exposures, 0 AS untimed_injuries,
        count(*) - count(minutes) AS untimed_exposures
    FROM scoped_exposures
    WHERE $purpose <> 'return'
    UNION ALL
    SELECT false, -1, minutes, 0, exposures, 0, untimed_exposures
    FROM marked
    WHERE $purpose <> 'return' AND coalesce(guarded, true)
    UNION ALL
    SELECT guarded, (guarded OR $purpose = 'return')::INTEGER, * EXCLUDE (guarded)
    FROM marked
    WHERE guarded IS NOT NULL
)
SELECT
    g.guarded,
    coalesce(sum(p.minutes * p.times), 0)::BIGINT AS minutes,
    coalesce(sum(p.injuries), 0)::BIGINT AS injuries,
    coalesce(sum(p.exposures * p.times), 0)::BIGINT AS exposures,
    coalesce(sum(p.untimed_injuries), 0)::BIGINT AS untimed_injuries,
    coalesce(sum(p.untimed_exposures * p.times), 0)::BIGINT AS untimed_exposures
FROM (VALUES (true), (false)) AS g (guarded)
LEFT JOIN pieces AS p USING (guarded)
GROUP BY g.guarded
ORDER BY g.guarded DESC;
