-- question: Whose site-exposures stand behind the comparison, and how many of each kind?
-- works on: scope
-- scope: groups
-- grain: one row per athlete, team and season with a site-exposure; those hurt first
-- columns:
--   athlete VARCHAR             key
--   name VARCHAR                as in roster; the key where not on that roster
--   team VARCHAR                key
--   season VARCHAR              as in sessions
--   position_group VARCHAR      as in roster; NULL where not recorded
--   exposures_guarded BIGINT    site-exposures with a guard
--   injuries_guarded BIGINT     of them, with an injury
--   exposures_unguarded BIGINT  bare site-exposures
--   injuries_unguarded BIGINT   of them, with an injury
--   set_aside BIGINT            site-exposures in neither group
WITH counted AS (
    SELECT
        e.athlete_no, s.team, s.season, e.position_group,
        count(*) FILTER (set_aside IS NULL AND guarded) AS exposures_guarded,
        count(*) FILTER (set_aside IS NULL AND guarded AND injured) AS injuries_guarded,
        count(*) FILTER (set_aside IS NULL AND NOT guarded) AS exposures_unguarded,
        count(*) FILTER (set_aside IS NULL AND NOT guarded AND injured) AS injuries_unguarded,
        count(*) FILTER (set_aside IS NOT NULL) AS set_aside
    FROM site_exposures($purpose) AS e
    JOIN store.sessions AS s USING (session_no)
    GROUP BY e.athlete_no, s.team, s.season, e.position_group
)
SELECT
    a.athlete,
    coalesce(r.name, a.athlete) AS name,
    c.team, c.season, c.position_group, c.exposures_guarded, c.injuries_guarded,
    c.exposures_unguarded, c.injuries_unguarded, c.set_aside
FROM counted AS c
JOIN store.athletes AS a USING (athlete_no)
LEFT JOIN store.roster AS r USING (athlete_no, team, season)
ORDER BY
    c.injuries_guarded + c.injuries_unguarded DESC,
    c.exposures_guarded DESC,
    a.athlete, c.team, c.season;
