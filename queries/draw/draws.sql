-- question: Which draws of turns are there?
-- params:
-- grain: one row per draw
-- columns:
--   draw VARCHAR   key
--   drawn_on DATE  day of the draw
SELECT draw, min(drawn_on) AS drawn_on
FROM store.turns
GROUP BY draw
ORDER BY draw;
