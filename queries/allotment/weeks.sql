-- question: How many guards were printed each week, against what the plan allows, and how many waited?
-- works on: orders
-- scope: guards
-- grain: one row per department and week (Monday to Sunday, local days), from the first order on
-- columns:
--   department VARCHAR       the department
--   plan VARCHAR             onsite printer or weekly allotment
--   prints_per_week INTEGER  allotment; NULL where there is none
--   week DATE                its Monday
--   is_whole BOOLEAN         its Sunday is known
--   asked BIGINT             orders first heard of in it
--   prints BIGINT            guards printed in it
--   hours DOUBLE             hours they took, as far as recorded
--   without_hours BIGINT     of them, without hours recorded
--   queue BIGINT             orders heard of and neither printed nor called off by its end
--   printers BIGINT          printers named in any order of the department so far, or listed as its own
--   weekly_hours DOUBLE      hours these run in a week: as listed, else all 168
WITH orders AS (
    SELECT
        *,
        (first_stage_at AT TIME ZONE time_zone)::DATE AS asked_on,
        (printed_at AT TIME ZONE time_zone)::DATE AS printed_on,
        (coalesce(printed_at, finished_at, shipped_at, delivered_at, fitted_at, over_at)
            AT TIME ZONE time_zone)::DATE AS left_queue_on
    FROM scoped_orders
),
spans AS (
    SELECT
        department,
        any_value(plan) AS plan,
        date_trunc('week', min(asked_on))::DATE AS first_week
    FROM orders
    GROUP BY department
),
own AS (
    SELECT department, printer FROM orders WHERE printer IS NOT NULL
    UNION
    SELECT department, printer FROM store.printers WHERE department IS NOT NULL
),
running AS (
    SELECT
        o.department,
        count(*) AS printers,
        fsum(coalesce(p.hours_per_week, 168.0)) AS weekly_hours
    FROM own AS o
    LEFT JOIN store.printers AS p USING (printer)
    GROUP BY o.department
),
weeks AS (
    SELECT s.department, s.plan, w.week::DATE AS week
    FROM spans AS s,
        unnest(generate_series(s.first_week, $until::DATE - 1, INTERVAL 7 DAY)) AS w(week)
),
asked AS (
    SELECT department, date_trunc('week', asked_on)::DATE AS week, count(*) AS asked
    FROM orders
    GROUP BY ALL
),
printed AS (
    SELECT
        department,
        date_trunc('week', printed_on)::DATE AS week,
        count(*) AS prints,
        fsum(print_hours) AS hours,
        count(*) FILTER (print_hours IS NULL) AS without_hours
    FROM orders
    WHERE printed_on IS NOT NULL
    GROUP BY ALL
),
gone AS (
    SELECT department, date_trunc('week', left_queue_on)::DATE AS week, count(*) AS gone
    FROM orders
    WHERE left_queue_on IS NOT NULL
    GROUP BY ALL
)
SELECT
    w.department, w.plan, d.prints_per_week, w.week,
    w.week + 7 <= $until::DATE AS is_whole,
    coalesce(a.asked, 0) AS asked,
    coalesce(p.prints, 0) AS prints,
    coalesce(p.hours, 0.0) AS hours,
    coalesce(p.without_hours, 0) AS without_hours,
    (sum(coalesce(a.asked, 0) - coalesce(g.gone, 0)) OVER (
        PARTITION BY w.department ORDER BY w.week
    ))::BIGINT AS queue,
    coalesce(r.printers, 0) AS printers,
    coalesce(r.weekly_hours, 0.0) AS weekly_hours
FROM weeks AS w
JOIN store.departments AS d USING (department)
LEFT JOIN asked AS a USING (department, week)
LEFT JOIN printed AS p USING (department, week)
LEFT JOIN gone AS g USING (department, week)
LEFT JOIN running AS r USING (department)
ORDER BY w.department, w.week;
