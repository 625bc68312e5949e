-- question: Which teams record what was worn in fewer than half of their games?
-- works on: checks
-- scope: checks
-- grain: one row per team and season with five games in which somebody had a guard
-- columns: doubts
WITH games AS (
    SELECT department, team, season, played_on, false AS is_told
    FROM checked_unworn
    WHERE setting = 'game'
    UNION ALL
    SELECT department, team, season, played_on, true
    FROM checked_sessions
    SEMI JOIN store.wear USING (session_no)
    WHERE setting = 'game' AND recorded > 0
)
SELECT
    department,
    team,
    NULL::VARCHAR AS athlete,
    NULL::VARCHAR AS name,
    max(played_on) AS dated_on,
    'wear' AS table_name,
    team AS key,
    season || ': worn in ' || count(*) FILTER (is_told) || ' of ' || count(*)
        || ' games in which somebody had a guard' AS detail
FROM games
GROUP BY department, team, season
HAVING count(*) >= 5 AND 2 * count(*) FILTER (is_told) < count(*)
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
