-- question: Which departments are there?
-- params:
-- grain: one row per department
-- columns:
--   department VARCHAR  key
--   name VARCHAR        as written
SELECT department, name
FROM store.departments
ORDER BY name, department;
