-- question: Which guards were worn after they were retired or cancelled?
-- touches: compare (guarded exposures), remakes (guard life), take-up (worn share)
-- why: Either it is still in use, or its successor was worn.
-- mend: Mend the stage, or name the guard that was worn.
-- works on: checks
-- scope: checks
-- grain: one row per session and guard worn
-- columns: doubts
SELECT
    department, team, athlete, name, played_on AS dated_on, 'wear' AS table_name,
    guard AS key,
    'worn in session ' || session || ', but retired or cancelled on '
        || (over_at AT TIME ZONE time_zone)::DATE AS detail
FROM checked_wear
JOIN checked_times USING (guard_no)
WHERE starts_at > over_at
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
