-- question: Which offers were not answered yet, or may be answered anew?
-- params:
-- grain: one row per offer; the undecided first
-- columns:
--   offer VARCHAR    key
--   name VARCHAR     of the athlete, as in roster
--   kind VARCHAR     guard kind
--   offered_on DATE  its day
--   answer VARCHAR   accepted, declined or undecided
WITH names AS (
    SELECT athlete_no, max_by(name, (season, team)) AS name FROM store.roster GROUP BY athlete_no
)
SELECT
    o.offer,
    coalesce(n.name, a.athlete) AS name,
    o.kind,
    o.offered_on,
    o.answer::VARCHAR AS answer
FROM store.offers AS o
JOIN store.athletes AS a USING (athlete_no)
LEFT JOIN names AS n USING (athlete_no)
ORDER BY o.answer <> 'undecided', o.offered_on DESC, name, o.offer;
