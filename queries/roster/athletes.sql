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
    bool_or(r.is_in_scope) AS in_scope,
    list(DISTINCT r.team ORDER BY r.team) AS teams
FROM (
    SELECT
        r.athlete_no, r.name, r.season, r.team,
        coalesce(r.joined_on < $until, true)
        AND is_asked($seasons, r.season)
        AND is_asked($departments, t.department)
        AND is_asked($teams, r.team)
        AND is_asked($sports, t.sport)
        AND is_asked($sexes, t.sex::VARCHAR)
        AND is_asked($position_groups, r.position_group)
            AS is_in_scope
    FROM store.roster AS r
    JOIN store.teams AS t USING (team)
) AS r
JOIN store.athletes AS a USING (athlete_no)
GROUP BY a.athlete
ORDER BY a.athlete;
