-- question: Which measures of a guard cannot well be?
-- touches: remakes (by contact)
-- why: Measures in other units, or slipped by a column, put the guard into the wrong group.
-- mend: Mend the measure: millimetres, grams, per cent, hours.
-- works on: checks
-- scope: checks
-- grain: one row per guard
-- columns: doubts
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
    g.department, g.team, g.athlete, g.name, g.known_on AS dated_on, 'guards' AS table_name,
    g.guard AS key,
    m.odd AS detail
FROM checked_guards AS g
JOIN measured AS m USING (guard_no)
WHERE m.odd <> ''
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
