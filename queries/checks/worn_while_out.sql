-- question: Which guards were worn in a session that their athlete was out of?
-- touches: compare (guarded exposures), games (guarded exposures), take-up (worn share)
-- why: Without taking part there is no exposure: the wear counts nowhere. A spreadsheet
--   filled down too far looks like this.
-- mend: Mend the attendance, or take the wear away.
-- works on: checks
-- scope: checks
-- grain: one row per session and guard worn
-- columns: doubts
SELECT
    department, team, athlete, name, played_on AS dated_on, 'wear' AS table_name,
    guard AS key,
    'worn in session ' || session || ', whose attendance says out' AS detail
FROM checked_wear
WHERE part = 'out'
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
