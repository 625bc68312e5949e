-- question: Which injuries are dated on another day than their session?
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
    i.area || ', ' || i.side || ': but session ' || i.session || ' was on ' || i.played_on
        AS detail
FROM checked_injuries AS i
WHERE i.occurred_on <> i.played_on
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
