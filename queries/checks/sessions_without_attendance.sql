-- question: Which sessions were held without any attendance recorded?
-- touches: compare (exposures and rates), games (numbers at risk), roster (availability),
--   departments (availability)
-- why: Nobody is exposed in them: an injury there counts in no rate, a game there ticks no
--   clock. Left out more often in bad weeks, they tilt every rate.
-- mend: Add the attendance, or delete the session when it was not held.
-- works on: checks
-- scope: checks
-- grain: one row per session before the last day known that has no attendance
-- columns: doubts
SELECT
    department, team, athlete, name, played_on AS dated_on, 'attendance' AS table_name,
    session AS key,
    setting || ': nobody is recorded' AS detail
FROM checked_sessions
WHERE recorded = 0 AND played_on < $until::DATE - 1
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
