-- question: Which athletes are known, and which of them have a place in the scope?
-- scope: athletes
-- grain: one row per athlete on any roster
-- columns:
--   athlete VARCHAR      key
--   name VARCHAR         as in roster; of several the last by season
--   in_scope BOOLEAN     on a roster of the scope, joined by the last day known
--   teams VARCHAR[]      keys of the teams
SELECT
    a.athlete,
    max_by(r.name, (r.season, r.team)) AS name,
    bool_or(p.team IS NOT NULL AND coalesce(r.joined_on < $until, true)) AS in_scope,
    list(DISTINCT r.team ORDER BY r.team) AS teams
FROM store.roster AS r
JOIN store.athletes AS a USING (athlete_no)
LEFT JOIN asked_places($seasons, $departments, $teams, $sports, $sexes, $position_groups) AS p
    USING (athlete_no, team, season)
GROUP BY a.athlete
ORDER BY a.athlete;
