-- question: Which injuries happened in a session in which the athlete is not recorded as taking
--   part?
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
-- grain: one row per injury
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
    i.department,
    i.team,
    i.athlete,
    i.name,
    i.occurred_on AS dated_on,
    'injuries' AS table_name,
    i.injury AS key,
    i.area || ', ' || i.side || ' in session ' || i.session
        || CASE WHEN a.part IS NULL THEN ': no row of attendance' ELSE ': recorded as out' END
        AS detail
FROM checked_injuries AS i
LEFT JOIN store.attendance AS a
    ON a.session_no = i.session_no AND a.athlete_no = i.athlete_no
WHERE i.session_no IS NOT NULL AND (a.part IS NULL OR a.part = 'out')
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
