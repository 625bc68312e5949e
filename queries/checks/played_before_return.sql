-- question: Which athletes played in full between an injury and the return recorded for it?
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
-- grain: one row per injury with a known return
-- columns:
--   department VARCHAR  key; NULL where the row belongs to none
--   team VARCHAR        key
--   athlete VARCHAR     key
--   name VARCHAR        as in roster; the key where not on that roster
--   dated_on DATE       the day it is about
--   table_name VARCHAR  the table the row is in
--   key VARCHAR         key of the row there; of attendance the session, of wear the guard
--   detail VARCHAR      what is doubtful, in words
WITH played AS (
    SELECT i.injury, count(*) AS sessions, min(s.played_on) AS first_on
    FROM checked_injuries AS i
    JOIN store.attendance AS a ON a.athlete_no = i.athlete_no AND a.part = 'full'
    JOIN store.sessions AS s ON s.session_no = a.session_no
    WHERE s.played_on > i.occurred_on AND s.played_on < i.returned_on
    GROUP BY i.injury
)
SELECT
    i.department,
    i.team,
    i.athlete,
    i.name,
    i.occurred_on AS dated_on,
    'injuries' AS table_name,
    i.injury AS key,
    i.area || ', ' || i.side || ': returned on ' || i.returned_on || ', but in full in '
        || p.sessions || ' sessions before, first on ' || p.first_on AS detail
FROM checked_injuries AS i
JOIN played AS p USING (injury)
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
