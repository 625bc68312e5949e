-- question: Which teams can a session be of, and in which season?
-- params:
-- grain: one row per team
-- columns:
--   team VARCHAR        key
--   sport VARCHAR       as written
--   sex VARCHAR         women, men or mixed
--   department VARCHAR  name of the department
--   season VARCHAR      of its last session, else the last of its roster; NULL: none known
WITH played AS (
    SELECT team, max_by(season, (starts_at, season)) AS season FROM store.sessions GROUP BY team
),
listed AS (SELECT team, max(season) AS season FROM store.roster GROUP BY team)
SELECT
    t.team, t.sport,
    t.sex::VARCHAR AS sex,
    d.name AS department,
    coalesce(p.season, l.season) AS season
FROM store.teams AS t
JOIN store.departments AS d USING (department)
LEFT JOIN played AS p USING (team)
LEFT JOIN listed AS l USING (team)
ORDER BY t.team;
