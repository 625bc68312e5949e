-- question: How many games have been played?
-- scope: teams
-- grain: one row
-- columns:
--   games BIGINT  games of the scope's teams in which someone is recorded as taking part
SELECT count(*) AS games
FROM scope_sessions($seasons, $until, $departments, $teams, $sports, $sexes, ['game']) AS s
SEMI JOIN (SELECT session_no FROM store.attendance WHERE part <> 'out') AS a USING (session_no);
