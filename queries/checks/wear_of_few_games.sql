-- question: Which teams record what was worn in fewer than half of their games?
-- touches: compare (guarded exposures), games (guarded exposures), take-up (worn share)
-- why: So few that not worn and not recorded cannot be told apart: what counts as bare may
--   have been guarded.
-- mend: Settle with the team how wear is recorded; until then compare without it.
-- works on: checks
-- scope: checks
-- grain: one row per team and season with five games in which somebody had a guard
-- columns: doubts
WITH games AS (
    SELECT * EXCLUDE (wear, could_wear), false AS is_worn
    FROM checked_unworn
    WHERE wear <> 'complete'
    UNION ALL
    SELECT *, true
    FROM checked_sessions
    SEMI JOIN worn_guards() USING (session_no)
    WHERE recorded > 0
)
SELECT
    department, team, athlete, name, max(played_on) AS dated_on, 'wear' AS table_name,
    team AS key,
    season || ': worn in ' || count(*) FILTER (is_worn) || ' of ' || count(*)
        || ' games in which somebody had a guard' AS detail
FROM games
WHERE setting = 'game'
GROUP BY department, team, athlete, name, season
HAVING count(*) >= 5 AND 2 * count(*) FILTER (is_worn) < count(*)
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
