-- question: Which injuries are open although the athlete has since played in full?
-- touches: compare (time loss), games (time loss), roster (who can play)
-- why: An open injury counts as time lost, and the athlete as injured, however short it
--   was.
-- mend: Record the day of return.
-- works on: checks
-- scope: checks
-- grain: one row per injury without a known return
-- columns: doubts
SELECT
    department, team, athlete, name, occurred_on AS dated_on, 'injuries' AS table_name,
    injury AS key,
    site || ': no return, but in full in ' || sessions || ' sessions since, first on '
        || first_on AS detail
FROM checked_injuries
JOIN played_in_full($until) USING (injury)
WHERE returned_on IS NULL
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
