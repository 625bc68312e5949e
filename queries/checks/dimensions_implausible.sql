-- question: Which measures of a guard cannot well be?
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
-- Our own limits, narrower than those beyond which a load refuses: shell 0.8 to 10 mm, liner 0
-- to 12 mm, contact 40 to 100 %, mass 10 to 1000 g, print 0.2 to 48 hours.
WITH measured AS (
    SELECT
        guard_no,
        concat_ws(
            ', ',
            CASE WHEN NOT shell_mm BETWEEN 0.8 AND 10
                 THEN 'shell ' || format('{:g}', shell_mm) || ' mm' END,
            CASE WHEN NOT liner_mm BETWEEN 0 AND 12
                 THEN 'liner ' || format('{:g}', liner_mm) || ' mm' END,
            CASE WHEN NOT contact_pct BETWEEN 40 AND 100
                 THEN 'contact ' || format('{:g}', contact_pct) || ' %' END,
            CASE WHEN NOT mass_g BETWEEN 10 AND 1000
                 THEN 'mass ' || format('{:g}', mass_g) || ' g' END,
            CASE WHEN NOT print_hours BETWEEN 0.2 AND 48
                 THEN 'print ' || format('{:g}', print_hours) || ' hours' END
        ) AS odd
    FROM store.guards
)
SELECT
    g.department,
    g.team,
    g.athlete,
    g.name,
    g.known_on AS dated_on,
    'guards' AS table_name,
    g.guard AS key,
    m.odd AS detail
FROM checked_guards AS g
JOIN measured AS m USING (guard_no)
WHERE m.odd <> ''
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
