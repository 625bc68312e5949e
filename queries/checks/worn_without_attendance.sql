-- question: Which guards were worn in a session without attendance of their athlete?
-- touches: compare (guarded exposures), games (guarded exposures), take-up (worn share)
-- why: Without a row there is no exposure: guarded exposures are missing, bare ones are
--   not.
-- mend: Add the attendance, or mend the session or guard of the wear.
-- works on: checks
-- scope: checks
-- grain: one row per session and guard worn
-- columns: doubts
SELECT
    department, team, athlete, name, played_on AS dated_on, 'wear' AS table_name,
    guard AS key,
    'worn in session ' || session || ', without a row of attendance' AS detail
FROM checked_wear
WHERE part IS NULL
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
