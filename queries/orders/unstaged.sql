-- question: Of how many guards of the scope is no stage known, although they are?
-- works on: orders
-- scope: guards
-- grain: one row
-- columns:
--   guards BIGINT  guards whose making is not recorded: nothing can be said about their time
WITH guards AS (SELECT * FROM scoped_guards),
-- A guard is known from its first stage or from the first session it was worn in; one without
-- either has no date from which it could be unknown.
dated AS (
    SELECT
        g.guard_no,
        (s.reached_at AT TIME ZONE g.time_zone)::DATE < $until AS is_staged,
        false AS is_worn
    FROM guards AS g
    JOIN store.stages AS s USING (guard_no)
    UNION ALL
    SELECT g.guard_no, false, s.played_on < $until
    FROM guards AS g
    JOIN store.wear AS w USING (guard_no)
    JOIN store.sessions AS s USING (session_no)
),
told AS (
    SELECT guard_no, bool_or(is_staged) AS is_staged, bool_or(is_worn) AS is_worn
    FROM dated
    GROUP BY guard_no
)
SELECT count(*) AS guards
FROM guards AS g
LEFT JOIN told AS t USING (guard_no)
WHERE t.guard_no IS NULL OR (t.is_worn AND NOT t.is_staged);
