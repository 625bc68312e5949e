-- question: Who took part in a session without being on that team's roster that day?
-- works on: checks
-- scope: checks
-- grain: one row per session and athlete who took part
-- columns: doubts
SELECT
    s.department,
    s.team,
    n.athlete,
    coalesce(r.name, n.athlete) AS name,
    s.played_on AS dated_on,
    'roster' AS table_name,
    s.session AS key,
    CASE
        WHEN r.athlete_no IS NULL
        THEN a.part || ', but not on the roster of ' || s.team || ' in ' || s.season
        WHEN r.joined_on > s.played_on THEN a.part || ', but joined only on ' || r.joined_on
        ELSE a.part || ', but left on ' || r.left_on
    END AS detail
FROM store.attendance AS a
JOIN checked_sessions AS s USING (session_no)
JOIN store.athletes AS n USING (athlete_no)
LEFT JOIN store.roster AS r
    ON r.athlete_no = a.athlete_no AND r.team = s.team AND r.season = s.season
WHERE a.part <> 'out'
  AND (r.athlete_no IS NULL OR r.joined_on > s.played_on OR r.left_on < s.played_on)
  AND ($position_groups IS NULL OR list_contains($position_groups, r.position_group))
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
