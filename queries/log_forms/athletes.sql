-- question: Which athletes can a record be about?
-- params:
-- grain: one row per athlete
-- columns:
--   athlete VARCHAR  key
--   name VARCHAR     as in roster; of several the last by season
--   teams VARCHAR    keys of the teams, with commas between
--   jersey VARCHAR   of the last season; NULL: none recorded
SELECT
    a.athlete,
    max_by(r.name, (r.season, r.team)) AS name,
    string_agg(DISTINCT r.team, ', ' ORDER BY r.team) AS teams,
    max_by(r.jersey, (r.season, r.team)) AS jersey
FROM store.roster AS r
JOIN store.athletes AS a USING (athlete_no)
GROUP BY a.athlete
ORDER BY name, a.athlete;
