-- question: For which teams can a session be made, in which season, and by which clock?
-- scope: departments
-- params:
--   seasons VARCHAR[]      seasons of the scope
-- grain: one row per team of the scope with a roster
-- columns:
--   team VARCHAR       key
--   season VARCHAR     its last season of the scope: the one whose sessions go furthest
--   time_zone VARCHAR  of its department
WITH dated AS (
    SELECT r.team, r.season, max(s.starts_at) AS last_at
    FROM (SELECT DISTINCT team, season FROM store.roster) AS r
    LEFT JOIN store.sessions AS s USING (team, season)
    WHERE is_asked($seasons, r.season)
    GROUP BY r.team, r.season
)
SELECT
    p.team,
    arg_max(p.season, (coalesce(p.last_at, '-infinity'::TIMESTAMPTZ), p.season)) AS season,
    any_value(d.time_zone) AS time_zone
FROM dated AS p
JOIN asked_teams($departments, $teams, $sports, $sexes) AS t USING (team)
JOIN store.departments AS d USING (department)
GROUP BY p.team
ORDER BY p.team;
