-- question: Which athletes played in full between an injury and the return recorded for it?
-- touches: compare (time loss), games (time loss), roster (days lost)
-- why: Either the return was earlier, and fewer days were lost or none, or the part was not
--   full.
-- mend: Mend the day of return, or the attendance.
-- works on: checks
-- scope: checks
-- grain: one row per injury with a known return
-- columns: doubts
SELECT
    department, team, athlete, name, occurred_on AS dated_on, 'injuries' AS table_name,
    injury AS key,
    site || ': returned on ' || returned_on || ', but in full in ' || sessions
        || ' sessions before, first on ' || first_on AS detail
FROM checked_injuries
JOIN played_in_full($until) USING (injury)
WHERE returned_on IS NOT NULL
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
