-- question: Which injuries name no session although the athlete took part in one that day?
-- touches: compare (injuries counted), games (injuries counted)
-- why: If it happened in that session, an injury is missing from its rate, guarded or bare:
--   the ratio is made without it.
-- mend: Name the session in the injury's row, unless it happened elsewhere.
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
