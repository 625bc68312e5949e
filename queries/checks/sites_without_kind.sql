-- question: Which injuries are to a body area that no guard kind covers?
-- works on: checks
-- scope: checks
-- grain: one row per injury
-- columns: doubts
SELECT
    i.department,
    i.team,
    i.athlete,
    i.name,
    i.occurred_on AS dated_on,
    'injuries' AS table_name,
    i.injury AS key,
    i.area || ', ' || i.side || ': no guard kind covers it' AS detail
FROM checked_injuries AS i
WHERE i.area NOT IN (SELECT area::VARCHAR FROM store.kinds)
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
