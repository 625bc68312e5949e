-- question: Which guards are there, and how far are they?
-- params:
--   athlete VARCHAR  key; NULL: of every athlete
--   living BOOLEAN   true: only those neither cancelled nor retired
-- grain: one row per guard; those on their way first
-- columns:
--   guard VARCHAR    key
--   name VARCHAR     of the athlete, as in roster
--   kind VARCHAR     guard kind
--   side VARCHAR     left, right, both or midline
--   stage VARCHAR    reached last, by its place in the row of stages; NULL: none recorded
--   athlete VARCHAR  key
WITH far AS (
    SELECT guard_no, max(stage) AS stage, bool_or(stage IN ('cancelled', 'retired')) AS is_over
    FROM store.stages
    GROUP BY guard_no
)
SELECT
    g.guard, a.name, g.kind,
    g.side::VARCHAR AS side,
    f.stage::VARCHAR AS stage,
    a.athlete
FROM store.guards AS g
JOIN athlete_names() AS a USING (athlete_no)
LEFT JOIN far AS f USING (guard_no)
WHERE ($athlete::VARCHAR IS NULL OR a.athlete = $athlete)
  AND NOT ($living::BOOLEAN AND coalesce(f.is_over, false))
ORDER BY coalesce(f.stage::VARCHAR = 'fitted', false), a.name, g.guard;
