-- question: Which printers are there, for whom, and what did each print of late?
-- params:
--   until DATE             first day not yet known (the day after "through")
--   departments VARCHAR[]  departments, NULL for all
-- grain: one row per printer that is listed, or named in an order of one of the departments
-- columns:
--   printer VARCHAR        as it is named
--   department VARCHAR     department it prints for alone; NULL: the maker's own, or not listed
--   hours_per_week DOUBLE  hours it can run in a week; NULL: not recorded
--   is_listed BOOLEAN      it is in the table of printers
--   used_by VARCHAR[]      departments with an order printed on it
--   prints BIGINT          guards printed on it in the 28 days up to the last one known
--   hours DOUBLE           hours they took, as far as recorded
--   without_hours BIGINT   of them, without hours recorded
WITH homes AS (
    SELECT r.athlete_no, min(t.department) AS department
    FROM store.roster AS r
    JOIN store.teams AS t USING (team)
    GROUP BY r.athlete_no
),
printed AS (
    SELECT
        g.printer, h.department, g.print_hours,
        (min(s.reached_at) AT TIME ZONE any_value(d.time_zone))::DATE AS printed_on
    FROM store.guards AS g
    JOIN homes AS h USING (athlete_no)
    JOIN store.departments AS d USING (department)
    JOIN store.stages AS s USING (guard_no)
    WHERE g.printer IS NOT NULL AND s.stage = 'printed'
    GROUP BY g.guard_no, g.printer, h.department, g.print_hours
),
used AS (
    SELECT
        printer,
        list(DISTINCT department ORDER BY department) AS used_by,
        count(*) FILTER (printed_on >= $until::DATE - 28) AS prints,
        fsum(print_hours) FILTER (printed_on >= $until::DATE - 28) AS hours,
        count(*) FILTER (printed_on >= $until::DATE - 28 AND print_hours IS NULL) AS without_hours
    FROM printed
    WHERE printed_on < $until
    GROUP BY printer
)
SELECT
    coalesce(p.printer, u.printer) AS printer,
    p.department, p.hours_per_week,
    p.printer IS NOT NULL AS is_listed,
    coalesce(u.used_by, []) AS used_by,
    coalesce(u.prints, 0) AS prints,
    coalesce(u.hours, 0.0) AS hours,
    coalesce(u.without_hours, 0) AS without_hours
FROM store.printers AS p
FULL JOIN used AS u ON u.printer = p.printer
WHERE is_asked($departments, p.department)
   OR $departments IS NULL
   OR list_has_any(u.used_by, $departments)
ORDER BY p.department NULLS LAST, printer;
