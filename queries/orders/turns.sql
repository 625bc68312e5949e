-- question: Which preventive guards have a drawn turn that was not jumped?
-- scope: guards
-- grain: one row per guard of the scope with a turn
-- columns:
--   guard VARCHAR  key
--   draw VARCHAR   key of the draw
--   turn INTEGER   place in the order drawn
--   turn_on DATE   first day of its week of printing
SELECT
    g.guard, t.draw, t.turn,
    t.starts_on + 7 * (t.week - 1) AS turn_on
FROM store.turns AS t
JOIN scope_guards(
    $seasons, $until, $departments, $teams, $sports, $sexes, $position_groups, $kinds, $areas,
    $sides, $made_of
) AS g
    ON g.athlete_no = t.athlete_no AND g.kind = t.kind
    AND (t.side = 'both' OR g.side IN ('both', t.side::VARCHAR))
WHERE t.drawn_on < $until
  AND g.purpose = 'preventive'
  AND coalesce(t.jumped_on >= $until, true)
QUALIFY row_number() OVER (PARTITION BY g.guard ORDER BY t.drawn_on, t.draw, t.turn) = 1
ORDER BY g.guard;
