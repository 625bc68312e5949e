-- question: For which teams can a session be made, in which season, and by which clock?
-- scope: departments
-- params:
--   seasons VARCHAR[]      seasons of the scope
-- grain: one row per team of the scope with a roster
-- columns:
--   team VARCHAR       key
--   season VARCHAR     its last season of the scope: the one whose sessions go furthest
--   time_zone VARCHAR  of its department
WITH places AS (
    SELECT DISTINCT r.team, r.season FROM store.roster AS r WHERE is_asked($seasons, r.season)
),
dated AS (
    SELECT p.team, p.season, max(s.starts_at) AS last_at
    FROM places AS p
    LEFT JOIN store.sessions AS s USING (team, season)
    GROUP BY p.team, p.season
)
SELECT
    p.team,
    arg_max(p.season, (coalesce(p.last_at, '-infinity'::TIMESTAMPTZ), p.season)) AS season,
    any_value(d.time_zone) AS time_zone
FROM dated AS p
JOIN store.teams AS t USING (team)
JOIN store.departments AS d USING (department)
WHERE is_asked($departments, t.department)
  AND is_asked($teams, p.team)
  AND is_asked($sports, t.sport)
  AND is_asked($sexes, t.sex::VARCHAR)
GROUP BY p.team
ORDER BY p.team;
