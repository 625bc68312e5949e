-- question: Which teams have sessions recorded, but no game?
-- touches: games (whose curve it is)
-- why: The team is in no curve of games and in no chance by the next game; in a pre-season
--   that is as it should be.
-- mend: Add the games, or mend the setting of sessions that were games.
-- works on: checks
-- scope: checks
-- grain: one row per team and season; none where only one setting is asked for
-- columns: doubts
SELECT
    department, team, athlete, name, max(played_on) AS dated_on, 'sessions' AS table_name,
    team AS key,
    season || ': ' || count(*) || ' practices recorded, and no game' AS detail
FROM checked_sessions
WHERE recorded > 0 AND $settings IS NULL
GROUP BY department, team, athlete, name, season
HAVING count(*) FILTER (setting = 'game') = 0
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
