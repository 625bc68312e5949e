-- question: Which guards were worn before they were delivered or fitted?
-- works on: checks
-- scope: checks
-- grain: one row per session and guard worn; guards of which no stage is known are another
--   check
-- columns: doubts
SELECT
    s.department,
    s.team,
    n.athlete,
    coalesce(r.name, n.athlete) AS name,
    s.played_on AS dated_on,
    'wear' AS table_name,
    g.guard AS key,
    'worn in session ' || s.session || CASE
        WHEN t.ready_at IS NULL THEN ', and neither delivered nor fitted so far'
        ELSE ', but here only on ' || (t.ready_at AT TIME ZONE z.time_zone)::DATE
    END AS detail
FROM checked_wear AS w
JOIN checked_times AS t USING (guard_no)
JOIN checked_sessions AS s USING (session_no)
JOIN store.guards AS g USING (guard_no)
JOIN store.athletes AS n ON n.athlete_no = g.athlete_no
LEFT JOIN store.roster AS r
    ON r.athlete_no = g.athlete_no AND r.team = s.team AND r.season = s.season
JOIN athlete_zones() AS z ON z.athlete_no = g.athlete_no
WHERE t.ready_at IS NULL OR w.starts_at < t.ready_at
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
