-- question: Which injuries are dated on another day than their session?
-- touches: compare (days lost), roster (days lost)
-- why: The injury counts in its session; its days lost are counted from the other day.
-- mend: Mend the day or the session.
-- works on: checks
-- scope: checks
-- grain: one row per injury
-- columns: doubts
SELECT
    department, team, athlete, name, occurred_on AS dated_on, 'injuries' AS table_name,
    injury AS key,
    site || ': but session ' || session || ' was on ' || played_on AS detail
FROM checked_injuries
WHERE occurred_on <> played_on
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
