-- question: Which departments with a weekly allotment have no number of prints a week?
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
-- grain: one row per department
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
    NULL::VARCHAR AS team,
    NULL::VARCHAR AS athlete,
    NULL::VARCHAR AS name,
    NULL::DATE AS dated_on,
    'departments' AS table_name,
    department AS key,
    'weekly allotment, but no prints a week' AS detail
FROM store.departments
WHERE plan = 'weekly allotment' AND prints_per_week IS NULL
  AND department IN (SELECT department FROM checked_places)
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
