-- question: How many games have been played?
-- works on: scope
-- scope: teams
-- grain: one row
-- columns:
--   games BIGINT  games of the scope's teams in which someone is recorded as taking part
SELECT count(*) AS games
FROM season_sessions AS s
SEMI JOIN (SELECT session_no FROM store.attendance WHERE part <> 'out') AS a USING (session_no)
WHERE s.setting = 'game';
