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
SELECT
    i.injury, a.name, i.occurred_on,
    i.area::VARCHAR AS area,
    i.side::VARCHAR AS side,
    a.athlete
FROM store.injuries AS i
JOIN athlete_names() AS a USING (athlete_no)
WHERE i.returned_on IS NULL
ORDER BY i.occurred_on DESC, a.name, i.injury;
