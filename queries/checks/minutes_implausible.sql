-- question: Which minutes or plays of an athlete in a session cannot well be?
-- works on: checks
-- scope: checks
-- grain: one row per session and athlete
-- columns: doubts
-- Our own limits: below 0, over 240 minutes or 250 plays, out with some, or taking part with
-- none.
SELECT
    s.department,
    s.team,
    n.athlete,
    coalesce(r.name, n.athlete) AS name,
    s.played_on AS dated_on,
    'attendance' AS table_name,
    s.session AS key,
    concat_ws(
        ', ',
        a.part::VARCHAR,
        format('{:g}', a.minutes) || ' minutes',
        a.plays || ' plays'
    ) AS detail
FROM store.attendance AS a
JOIN checked_sessions AS s USING (session_no)
JOIN store.athletes AS n USING (athlete_no)
LEFT JOIN store.roster AS r
    ON r.athlete_no = a.athlete_no AND r.team = s.team AND r.season = s.season
WHERE (a.minutes IS NOT NULL OR a.plays IS NOT NULL)
  AND (
      a.minutes < 0 OR a.minutes > 240 OR a.plays < 0 OR a.plays > 250
      OR (a.part = 'out' AND (a.minutes > 0 OR a.plays > 0))
      OR (a.part <> 'out' AND coalesce(a.minutes, 0) = 0 AND coalesce(a.plays, 0) = 0)
  )
  AND ($position_groups IS NULL OR list_contains($position_groups, r.position_group))
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
