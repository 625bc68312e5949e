-- question: Who was on the roster when a session was held, and has no row of attendance?
-- works on: checks
-- scope: checks
-- grain: one row per session that has attendance and athlete without a row
-- columns: doubts
SELECT
    department, team, athlete, name, played_on AS dated_on, 'attendance' AS table_name,
    session AS key,
    setting || ': on the roster that day, but no row' AS detail
FROM checked_missing
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
