-- question: Which departments with a weekly allotment have no number of prints a week?
-- touches: departments (prints used)
-- why: Without the number nobody can say how much of it is used.
-- mend: Record prints_per_week.
-- works on: checks
-- scope: checks
-- grain: one row per department
-- columns: doubts
SELECT
    department, NULL::VARCHAR AS team, NULL::VARCHAR AS athlete, NULL::VARCHAR AS name,
    NULL::DATE AS dated_on, 'departments' AS table_name, department AS key,
    'weekly allotment, but no prints a week' AS detail
FROM store.departments
WHERE plan = 'weekly allotment' AND prints_per_week IS NULL
  AND department IN (SELECT department FROM checked_places)
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
