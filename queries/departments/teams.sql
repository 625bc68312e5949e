-- question: Which departments are in the scope, with which teams and which plan?
-- scope: departments
-- grain: one row per department and team; team NULL for a department without one
-- columns:
--   department VARCHAR       key
--   name VARCHAR             its name
--   plan VARCHAR             onsite printer or weekly allotment
--   prints_per_week INTEGER  NULL: none agreed
--   team VARCHAR             key
SELECT d.department, d.name, d.plan::VARCHAR AS plan, d.prints_per_week, t.team
FROM store.departments AS d
LEFT JOIN store.teams AS t USING (department)
WHERE is_asked($departments, d.department)
  AND is_asked($teams, t.team)
  AND is_asked($sports, t.sport)
  AND is_asked($sexes, t.sex::VARCHAR)
ORDER BY d.department, t.team;
