-- question: From which injuries has the athlete not returned, as far as recorded?
-- params:
-- grain: one row per injury without a return; the last ones first
-- columns:
--   injury VARCHAR    key
--   name VARCHAR      of the athlete, as in roster
--   occurred_on DATE  day of onset
--   area VARCHAR      body area
--   side VARCHAR      left, right, both or midline
--   athlete VARCHAR   key
WITH names AS (
    SELECT athlete_no, max_by(name, (season, team)) AS name FROM store.roster GROUP BY athlete_no
)
SELECT
    i.injury,
    coalesce(n.name, a.athlete) AS name,
    i.occurred_on,
    i.area::VARCHAR AS area,
    i.side::VARCHAR AS side,
    a.athlete
FROM store.injuries AS i
JOIN store.athletes AS a USING (athlete_no)
LEFT JOIN names AS n USING (athlete_no)
WHERE i.returned_on IS NULL
ORDER BY i.occurred_on DESC, name, i.injury;
