-- question: Who took part without a position group on the roster?
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
-- grain: one row per athlete, team and season
-- columns:
--   department VARCHAR  key; NULL where the row belongs to none
--   team VARCHAR        key
--   athlete VARCHAR     key
--   name VARCHAR        as in roster; the key where not on that roster
--   dated_on DATE       the day it is about
--   table_name VARCHAR  the table the row is in
--   key VARCHAR         key of the row there; of attendance the session, of wear the guard
--   detail VARCHAR      what is doubtful, in words
WITH playing AS (
    SELECT DISTINCT a.athlete_no, s.team, s.season
    FROM checked_sessions AS s
    JOIN store.attendance AS a USING (session_no)
    JOIN checked_places AS p
        ON p.athlete_no = a.athlete_no AND p.team = s.team AND p.season = s.season
    WHERE a.part <> 'out' AND p.position_group IS NULL
)
SELECT
    p.department,
    p.team,
    p.athlete,
    p.name,
    NULL::DATE AS dated_on,
    'roster' AS table_name,
    p.athlete AS key,
    p.season || ': no position group' AS detail
FROM checked_places AS p
JOIN playing AS q USING (athlete_no, team, season)
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
