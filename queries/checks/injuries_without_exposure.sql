-- question: Which injuries happened in a session in which the athlete is not recorded as taking
--   part?
-- touches: compare (injuries counted), games (injuries counted)
-- why: An injury without an exposure enters no rate: whoever is hurt and then listed as out
--   makes the rate too low.
-- mend: Who was hurt in a session took part in it: mend the attendance, or the session
--   named.
-- works on: checks
-- scope: checks
-- grain: one row per injury
-- columns: doubts
SELECT
    i.department, i.team, i.athlete, i.name, i.occurred_on AS dated_on, 'injuries' AS table_name,
    i.injury AS key,
    i.site || ' in session ' || i.session
        || CASE WHEN a.part IS NULL THEN ': no row of attendance' ELSE ': recorded as out' END
        AS detail
FROM checked_injuries AS i
LEFT JOIN store.attendance AS a USING (session_no, athlete_no)
WHERE i.session_no IS NOT NULL AND coalesce(a.part = 'out', true)
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
