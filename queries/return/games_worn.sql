-- question: How many games were played in a return guard, department by department?
-- works on: scope
-- scope: groups
-- grain: one row per department with such a game
-- columns:
--   department VARCHAR  key
--   games BIGINT        athletes' games with a guard made for return recorded as worn
--   athletes BIGINT     athletes who played one
--   guards BIGINT       guards worn in them
SELECT
    s.department,
    count(DISTINCT (w.session_no, g.athlete_no)) AS games,
    count(DISTINCT g.athlete_no) AS athletes,
    count(DISTINCT g.guard_no) AS guards
FROM worn_guards() AS w
JOIN site_guards AS g USING (guard_no)
JOIN scoped_exposures AS e ON e.session_no = w.session_no AND e.athlete_no = g.athlete_no
JOIN scoped_sessions AS s ON s.session_no = w.session_no
WHERE g.purpose = 'return' AND s.setting = 'game'
GROUP BY s.department
ORDER BY s.department;
