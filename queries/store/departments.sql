-- question: Which departments does the store hold, as they are loaded?
-- grain: one row per department
-- columns:
--   department       VARCHAR  key
--   name             VARCHAR  as written
--   plan             VARCHAR  one of its word list
--   prints_per_week  INTEGER  whole number; NULL when not given
--   time_zone        VARCHAR  as written
--   since            DATE     day; NULL when not given
SELECT
    departments.department AS department,
    departments.name AS name,
    CAST(departments.plan AS VARCHAR) AS plan,
    departments.prints_per_week AS prints_per_week,
    departments.time_zone AS time_zone,
    departments.since AS since
FROM store.departments AS departments
ORDER BY department
