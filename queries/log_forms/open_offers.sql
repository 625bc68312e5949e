-- question: Which offers were not answered yet, or may be answered anew?
-- params:
-- grain: one row per offer; the undecided first
-- columns:
--   offer VARCHAR    key
--   name VARCHAR     of the athlete, as in roster
--   kind VARCHAR     guard kind
--   offered_on DATE  its day
--   answer VARCHAR   accepted, declined or undecided
SELECT
    o.offer, a.name, o.kind, o.offered_on,
    o.answer::VARCHAR AS answer
FROM store.offers AS o
JOIN athlete_names() AS a USING (athlete_no)
ORDER BY o.answer <> 'undecided', o.offered_on DESC, a.name, o.offer;
