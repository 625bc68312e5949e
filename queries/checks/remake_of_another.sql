-- question: Which guards are recorded as made in place of another athlete's or another site's?
-- touches: remakes (remakes and chains)
-- why: It counts as that guard's remake, or is left out of the chains.
-- mend: Name the guard it replaces, or nothing.
-- works on: checks
-- scope: checks
-- grain: one row per guard that names one it replaces
-- columns: doubts
SELECT
    g.department, g.team, g.athlete, g.name, g.known_on AS dated_on, 'guards' AS table_name,
    g.guard AS key,
    'in place of ' || g.remake_of || CASE
        WHEN o.guard IS NULL THEN ', which is not known'
        WHEN o.athlete_no <> g.athlete_no THEN ', which is another athlete''s'
        WHEN o.kind <> g.kind THEN ', which is of the kind ' || o.kind
        ELSE ', which is ' || o.side || ' where this is ' || g.side
    END AS detail
FROM checked_guards AS g
LEFT JOIN store.guards AS o ON o.guard = g.remake_of
WHERE g.remake_of IS NOT NULL
  AND (
      o.guard IS NULL
      OR o.athlete_no <> g.athlete_no
      OR o.kind <> g.kind
      OR (o.side::VARCHAR <> g.side AND 'both' NOT IN (o.side::VARCHAR, g.side))
  )
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
