-- question: Which teams have sessions recorded, but no game?
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
