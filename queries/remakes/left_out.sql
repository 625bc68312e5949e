-- question: Which guards are not counted, although they replace another or were worn, and why?
-- works on: orders
-- scope: guards
-- grain: one row per reason
-- columns:
--   what VARCHAR    what was recorded
--   why VARCHAR     why it is not counted
--   number BIGINT   how many
WITH guards AS (SELECT * FROM scoped_guards JOIN news_of_guards($until) USING (guard_no)),
listed AS (
    SELECT
        'guards asked for anew' AS what,
        CASE
            WHEN t.remake_of = t.guard THEN 'it names itself as the one it replaces'
            WHEN g.guard IS NULL THEN 'the guard it replaces is not known'
            WHEN g.athlete_no <> t.athlete_no THEN 'it replaces a guard of another athlete'
            WHEN NOT t.is_staged THEN 'no stage of it is recorded'
            WHEN o.state = 'cancelled' THEN 'it was cancelled before it was fitted'
            WHEN (o.first_stage_at AT TIME ZONE b.time_zone)::DATE
                < (b.fitted_at AT TIME ZONE b.time_zone)::DATE
                THEN 'it was asked for before the guard it replaces was fitted'
        END AS why
    FROM guards AS t
    LEFT JOIN store.guards AS g ON g.guard = t.remake_of
    LEFT JOIN scoped_orders AS o ON o.guard_no = t.guard_no
    LEFT JOIN scoped_orders AS b ON b.guard_no = g.guard_no
    WHERE t.remake_of IS NOT NULL AND (t.is_staged OR t.is_worn OR t.is_undated)
    UNION ALL
    SELECT 'guards', 'worn, and never recorded as fitted'
    FROM guards
    WHERE is_worn AND NOT is_fitted
)
SELECT what, why, count(*) AS number
FROM listed
WHERE why IS NOT NULL
GROUP BY what, why
ORDER BY number DESC, what, why;
