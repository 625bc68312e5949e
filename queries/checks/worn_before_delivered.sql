-- question: Which guards were worn before they were delivered or fitted?
-- touches: compare (guarded exposures), games (guarded exposures), turnaround (time from
--   stage to stage), orders (open orders)
-- why: Either the stage is late or missing, and the turnaround too long, or it was not this
--   guard that was worn.
-- mend: Add or mend the stage, or name the guard that was worn.
-- works on: checks
-- scope: checks
-- grain: one row per session and guard worn; guards of which no stage is known are another
--   check
-- columns: doubts
SELECT
    department, team, athlete, name, played_on AS dated_on, 'wear' AS table_name,
    guard AS key,
    'worn in session ' || session || coalesce(
        ', but here only on ' || (ready_at AT TIME ZONE time_zone)::DATE,
        ', and neither delivered nor fitted so far'
    ) AS detail
FROM checked_wear
JOIN checked_times USING (guard_no)
WHERE coalesce(starts_at < ready_at, true)
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
