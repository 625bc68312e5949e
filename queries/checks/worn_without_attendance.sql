-- question: Which guards were worn in a session without attendance of their athlete?
-- works on: checks
-- scope: checks
-- grain: one row per session and guard worn
-- columns: doubts
SELECT
    s.department,
    s.team,
    n.athlete,
    coalesce(r.name, n.athlete) AS name,
    s.played_on AS dated_on,
    'wear' AS table_name,
    g.guard AS key,
    'worn in session ' || s.session || ', without a row of attendance' AS detail
FROM checked_wear AS w
JOIN checked_sessions AS s USING (session_no)
JOIN store.guards AS g USING (guard_no)
JOIN store.athletes AS n ON n.athlete_no = g.athlete_no
LEFT JOIN store.roster AS r
    ON r.athlete_no = g.athlete_no AND r.team = s.team AND r.season = s.season
WHERE w.part IS NULL
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
