-- question: Which guards are not counted, although they replace another or were worn, and why?
-- works on: orders
-- scope: guards
-- grain: one row per reason
-- columns:
--   what VARCHAR    what was recorded
--   why VARCHAR     why it is not counted
--   number BIGINT   how many
WITH guards AS (SELECT * FROM scoped_guards),
-- A guard is known from its first stage or from the first session it was worn in; one without
-- either has no date from which it could be unknown.
stamped AS (
    SELECT
        g.guard_no,
        bool_or((s.reached_at AT TIME ZONE g.time_zone)::DATE < $until) AS is_staged,
        bool_or((s.reached_at AT TIME ZONE g.time_zone)::DATE < $until AND s.stage = 'fitted')
            AS is_fitted
    FROM guards AS g
    JOIN store.stages AS s USING (guard_no)
    GROUP BY g.guard_no
),
worn AS (
    SELECT w.guard_no, bool_or(s.played_on < $until) AS is_worn
    FROM store.wear AS w
    JOIN guards AS g USING (guard_no)
    JOIN store.sessions AS s USING (session_no)
    GROUP BY w.guard_no
),
told AS (
    SELECT
        g.*,
        coalesce(s.is_staged, false) AS is_staged,
        coalesce(s.is_fitted, false) AS is_fitted,
        coalesce(w.is_worn, false) AS is_worn,
        s.guard_no IS NULL AND w.guard_no IS NULL AS is_undated
    FROM guards AS g
    LEFT JOIN stamped AS s USING (guard_no)
    LEFT JOIN worn AS w USING (guard_no)
),
listed AS (
    SELECT
        'guards asked for anew' AS what,
        CASE
            WHEN t.remake_of = t.guard THEN 'it names itself as the one it replaces'
            WHEN g.guard IS NULL THEN 'the guard it replaces is not known'
            WHEN g.athlete_no <> t.athlete_no THEN 'it replaces a guard of another athlete'
            WHEN NOT t.is_staged THEN 'no stage of it is recorded'
            WHEN o.state = 'cancelled' THEN 'it was cancelled before it was fitted'
        END AS why
    FROM told AS t
    LEFT JOIN store.guards AS g ON g.guard = t.remake_of
    LEFT JOIN scoped_orders AS o ON o.guard_no = t.guard_no
    WHERE t.remake_of IS NOT NULL AND (t.is_staged OR t.is_worn OR t.is_undated)
    UNION ALL
    SELECT 'guards', 'worn, and never recorded as fitted'
    FROM told
    WHERE is_worn AND NOT is_fitted
)
SELECT what, why, count(*) AS number
FROM listed
WHERE why IS NOT NULL
GROUP BY what, why
ORDER BY number DESC, what, why;
