-- question: Which injuries name no session, and no session of that day suggests itself?
-- touches: compare (injuries counted), games (sites followed)
-- why: It happened in no session, so it is in no rate; it still ends the curve of its site.
--   Gradual ones and those from outside sport belong here.
-- mend: Nothing, when it happened outside sport or came gradually; else name the session.
-- works on: checks
-- scope: checks
-- grain: one row per injury; the athlete took part in no session that day
-- columns: doubts
SELECT
    department, team, athlete, name, occurred_on AS dated_on, 'injuries' AS table_name,
    injury AS key,
    site || ': no session, and the athlete took part in none that day' AS detail
FROM checked_injuries
ANTI JOIN suggested_sessions() USING (injury)
WHERE session_no IS NULL
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
