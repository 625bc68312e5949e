-- question: Which teams record what was worn in fewer than half of their games?
-- works on: checks
-- params:
--   seasons VARCHAR[]          seasons of the scope, NULL for all (so too the lists below)
--   until DATE                 first day not yet known (the day after "through")
--   departments VARCHAR[]      departments
--   teams VARCHAR[]            teams
--   sports VARCHAR[]           sports
--   sexes VARCHAR[]            sexes of the teams
--   settings VARCHAR[]         game, practice
--   position_groups VARCHAR[]  position groups, as in roster
--   kinds VARCHAR[]            guard kinds; NULL: guards and injuries of every kind
--   areas VARCHAR[]            body areas
--   sides VARCHAR[]            sides
-- grain: one row per team and season with five games in which somebody had a guard
-- columns:
--   department VARCHAR  key; NULL where the row belongs to none
--   team VARCHAR        key
--   athlete VARCHAR     key
--   name VARCHAR        as in roster; the key where not on that roster
--   dated_on DATE       the day it is about
--   table_name VARCHAR  the table the row is in
--   key VARCHAR         key of the row there; of attendance the session, of wear the guard
--   detail VARCHAR      what is doubtful, in words
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
