-- question: Who was on the roster when a session was held, and has no row of attendance?
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
-- grain: one row per session that has attendance and athlete without a row
-- columns:
--   department VARCHAR  key; NULL where the row belongs to none
--   team VARCHAR        key
--   athlete VARCHAR     key
--   name VARCHAR        as in roster; the key where not on that roster
--   dated_on DATE       the day it is about
--   table_name VARCHAR  the table the row is in
--   key VARCHAR         key of the row there; of attendance the session, of wear the guard
--   detail VARCHAR      what is doubtful, in words
SELECT
    s.department,
    s.team,
    p.athlete,
    p.name,
    s.played_on AS dated_on,
    'attendance' AS table_name,
    s.session AS key,
    s.setting || ': on the roster that day, but no row' AS detail
FROM checked_missing AS m
JOIN checked_sessions AS s USING (session_no)
JOIN checked_places AS p
    ON p.athlete_no = m.athlete_no AND p.team = s.team AND p.season = s.season
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
