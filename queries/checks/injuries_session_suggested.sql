-- question: Which injuries name no session although the athlete took part in one that day?
-- works on: checks
-- scope: checks
-- grain: one row per injury
-- columns: doubts
WITH suggested AS (
    SELECT injury, string_agg(session, ', ' ORDER BY starts_at, session_no) AS sessions
    FROM suggested_sessions()
    GROUP BY injury
)
SELECT
    department, team, athlete, name, occurred_on AS dated_on, 'injuries' AS table_name,
    injury AS key,
    site || ': no session, but took part that day in ' || sessions AS detail
FROM checked_injuries
JOIN suggested USING (injury)
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
