-- question: Which draws of turns are there, and how were they kept to?
-- scope: athletes, kinds
-- grain: one row per draw with a turn of an athlete of the scope
-- columns:
--   draw VARCHAR             key
--   drawn_on DATE            day of the draw
--   last_week INTEGER        week of printing of its last turn, from 1; of the whole draw
--   turns BIGINT             turns of the scope's athletes
--   jumped BIGINT            those whose guard was made out of turn
--   board_number VARCHAR     number that the review board gave; NULL: none was needed
--   no_board_reason VARCHAR  why none was needed; NULL: it gave a number
SELECT
    t.draw,
    any_value(t.drawn_on) AS drawn_on,
    any_value(w.last_week) AS last_week,
    count(*) AS turns,
    count(*) FILTER (t.jumped_on < $until) AS jumped,
    any_value(t.board_number) AS board_number,
    any_value(t.no_board_reason) AS no_board_reason
FROM store.turns AS t
JOIN (SELECT draw, max(week) AS last_week FROM store.turns GROUP BY draw) AS w USING (draw)
WHERE t.drawn_on < $until
  AND t.kind IN (FROM asked_kinds($kinds, $areas))
  AND is_asked_side($sides, t.side)
  AND t.athlete_no IN (
      SELECT athlete_no
      FROM asked_places($seasons, $departments, $teams, $sports, $sexes, $position_groups)
  )
GROUP BY t.draw
ORDER BY t.draw;
