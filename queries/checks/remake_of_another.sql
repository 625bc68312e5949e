-- question: Which guards are recorded as made in place of another athlete's or another site's?
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
-- grain: one row per guard that names one it replaces
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
    'guards' AS table_name,
    g.guard AS key,
    'in place of ' || g.remake_of || CASE
        WHEN o.guard IS NULL THEN ', which is not known'
        WHEN o.athlete_no <> g.athlete_no THEN ', which is another athlete''s'
        WHEN o.kind <> g.kind THEN ', which is of the kind ' || o.kind
        ELSE ', which is ' || o.side || ' where this is ' || g.side
    END AS detail
FROM checked_guards AS g
LEFT JOIN store.guards AS o ON o.guard = g.remake_of
WHERE g.remake_of IS NOT NULL
  AND (
      o.guard IS NULL
      OR o.athlete_no <> g.athlete_no
      OR o.kind <> g.kind
      OR (o.side::VARCHAR <> g.side AND 'both' NOT IN (o.side::VARCHAR, g.side))
  )
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
