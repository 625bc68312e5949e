-- question: Which departments have a placeholder for a time zone?
-- touches: week (days), turnaround (days), compare (days of evening games)
-- why: Late games and stages fall on the next day, in the wrong week or block.
-- mend: Name the place, such as America/Chicago.
-- works on: checks
-- scope: checks
-- grain: one row per department
-- columns: doubts
SELECT
    department, NULL::VARCHAR AS team, NULL::VARCHAR AS athlete, NULL::VARCHAR AS name,
    NULL::DATE AS dated_on, 'departments' AS table_name, department AS key,
    'time zone ' || time_zone || ', which is no place' AS detail
FROM store.departments
WHERE (
      time_zone IN ('UTC', 'GMT', 'UCT', 'Universal', 'Zulu', 'Greenwich')
      OR time_zone LIKE 'Etc/%'
  )
  AND department IN (SELECT department FROM checked_places)
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
