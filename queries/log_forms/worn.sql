-- question: Which guards of a site are recorded as worn by an athlete in a session?
-- params:
--   session VARCHAR  key
--   athlete VARCHAR  key
--   area VARCHAR     body area
--   side VARCHAR     left, right, both or midline
-- grain: one row per guard that covers the site, or one side of it
-- columns:
--   guard VARCHAR  key
--   kind VARCHAR   guard kind
--   side VARCHAR   left, right, both or midline
SELECT g.guard, g.kind, g.side::VARCHAR AS side
FROM worn_guards() AS w
JOIN store.sessions AS s USING (session_no)
JOIN store.guards AS g USING (guard_no)
JOIN store.athletes AS a USING (athlete_no)
WHERE s.session = $session
  AND a.athlete = $athlete
  AND EXISTS (
      SELECT 1
      FROM store.kinds AS k
      WHERE k.kind = g.kind
        AND k.area::VARCHAR = $area
        AND list_has_any(sides_of(k.area, g.side::VARCHAR), sides_of(k.area, $side))
  )
ORDER BY g.guard;
