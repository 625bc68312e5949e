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
WITH timed AS (
    SELECT e.session_no, e.athlete_no, a.minutes
    FROM scoped_exposures AS e
    JOIN store.attendance AS a USING (session_no, athlete_no)
),
marked AS (
    SELECT m.guarded, m.injured, m.set_aside, t.minutes
    FROM marked_sites($purpose) AS m
    JOIN timed AS t USING (session_no, athlete_no)
),
pieces AS (  -- all sites as if they were bare, then the marked ones put where they belong
    SELECT false AS guarded, minutes, false AS injured, (SELECT count(*) FROM scoped_sites) AS sites
    FROM timed
    WHERE $purpose <> 'return'
    UNION ALL
    SELECT false, minutes, false, -1
    FROM marked
    WHERE $purpose <> 'return' AND (set_aside IS NOT NULL OR guarded)
    UNION ALL
    SELECT false, minutes, injured, CASE WHEN $purpose = 'return' THEN 1 ELSE 0 END
    FROM marked
    WHERE set_aside IS NULL AND NOT guarded
    UNION ALL
    SELECT true, minutes, injured, 1
    FROM marked
    WHERE set_aside IS NULL AND guarded
)
SELECT
    g.guarded,
    coalesce(sum(p.minutes * p.sites), 0)::BIGINT AS minutes,
    count(*) FILTER (p.injured AND p.minutes IS NOT NULL) AS injuries,
    coalesce(sum(p.sites) FILTER (p.minutes IS NOT NULL), 0)::BIGINT AS exposures,
    count(*) FILTER (p.injured AND p.minutes IS NULL) AS untimed_injuries,
    coalesce(sum(p.sites) FILTER (p.minutes IS NULL), 0)::BIGINT AS untimed_exposures
FROM (VALUES (true), (false)) AS g (guarded)
LEFT JOIN pieces AS p USING (guarded)
GROUP BY g.guarded
ORDER BY g.guarded DESC;
