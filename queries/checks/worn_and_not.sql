-- question: Which guards are recorded as not worn, and as kept on all the same?
-- touches: compare (guarded exposures), games (guarded exposures), take-up (worn share)
-- why: One of the two is wrong. The guard is taken as not worn, so the exposure counts as bare.
-- mend: Ask who was there, and mend one of the two.
-- works on: checks
-- scope: checks
-- grain: one row per session and guard that is recorded both ways
-- columns: doubts
SELECT
    department, team, athlete, name, played_on AS dated_on, 'wear' AS table_name,
    guard AS key,
    'not worn in session ' || session || ', but kept on for ' || kept_on || ' of it' AS detail
FROM checked_wear_rows
WHERE worn = 'no' AND kept_on IS NOT NULL
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
