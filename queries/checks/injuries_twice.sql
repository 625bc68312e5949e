-- question: Which injuries look like a second record of one injury?
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
-- grain: one row per injury to the site of another of at most three days before
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
    i.area || ', ' || i.side || ': injury '
        || string_agg(o.injury, ', ' ORDER BY o.occurred_on, o.injury)
        || ' to the site is at most three days older' AS detail
FROM checked_injuries AS i
JOIN checked_injuries AS o
    ON o.athlete_no = i.athlete_no
    AND o.area = i.area
    AND (o.side = i.side OR 'both' IN (o.side, i.side))
    AND (o.occurred_on, o.injury) < (i.occurred_on, i.injury)
    AND i.occurred_on - o.occurred_on <= 3
GROUP BY i.department, i.team, i.athlete, i.name, i.occurred_on, i.injury, i.area, i.side
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
