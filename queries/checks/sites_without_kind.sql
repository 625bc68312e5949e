-- question: Which injuries are to a body area that no guard kind covers?
-- works on: checks
-- scope: checks
-- grain: one row per injury
-- columns: doubts
SELECT
    department, team, athlete, name, occurred_on AS dated_on, 'injuries' AS table_name,
    injury AS key,
    site || ': no guard kind covers it' AS detail
FROM checked_injuries
WHERE area NOT IN (SELECT area::VARCHAR FROM store.kinds)
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
