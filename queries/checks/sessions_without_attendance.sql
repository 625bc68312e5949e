-- question: Which sessions were held without any attendance recorded?
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
-- grain: one row per session before the last day known that has no attendance
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
    department,
    team,
    NULL::VARCHAR AS athlete,
    NULL::VARCHAR AS name,
    played_on AS dated_on,
    'attendance' AS table_name,
    session AS key,
    setting || ': nobody is recorded' AS detail
FROM checked_sessions
WHERE recorded = 0 AND played_on < $until::DATE - 1
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
