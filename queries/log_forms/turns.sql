-- question: Which drawn turns are there that were not jumped?
-- params:
-- grain: one row per turn; the latest draw first, in the order drawn
-- columns:
--   place VARCHAR    the draw and the turn in it
--   name VARCHAR     of the athlete, as in roster
--   kind VARCHAR     guard kind
--   side VARCHAR     left, right, both or midline
--   week INTEGER     week of printing
--   draw VARCHAR     key of the draw
--   athlete VARCHAR  key
SELECT
    concat(t.draw, ' turn ', t.turn) AS place,
    a.name, t.kind,
    t.side::VARCHAR AS side,
    t.week, t.draw, a.athlete
FROM store.turns AS t
JOIN athlete_names() AS a USING (athlete_no)
WHERE t.jumped_on IS NULL
ORDER BY t.drawn_on DESC, t.draw DESC, t.turn;
