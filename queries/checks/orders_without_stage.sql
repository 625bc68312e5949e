-- question: Which guards have no stage, so that nobody knows when they were asked for or came?
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
-- grain: one row per guard
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
    g.department,
    g.team,
    g.athlete,
    g.name,
    g.known_on AS dated_on,
    'stages' AS table_name,
    g.guard AS key,
    g.kind || ', ' || g.side || CASE
        WHEN g.known_on IS NULL THEN ': no stage, and never worn'
        ELSE ': no stage, but first worn on ' || g.known_on
    END AS detail
FROM checked_guards AS g
WHERE NOT g.is_staged
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
