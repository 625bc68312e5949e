-- question: Which games are ahead in the next days?
-- scope: teams
-- params:
--   days INTEGER           how many days to look ahead, from that day on
-- grain: one row per game; one on the last day known whose attendance nobody recorded is ahead too
-- columns:
--   session VARCHAR        key
--   team VARCHAR           key
--   season VARCHAR         as in sessions
--   department VARCHAR     key
--   starts_at TIMESTAMPTZ  its start
--   played_on DATE         its day in the department
--   time_zone VARCHAR      of the department
--   label VARCHAR          NULL: none recorded
SELECT
    s.session, s.team, s.season, t.department, s.starts_at, s.played_on, d.time_zone, s.label
FROM store.sessions AS s
JOIN asked_teams($departments, $teams, $sports, $sexes) AS t USING (team)
JOIN store.departments AS d USING (department)
WHERE s.setting = 'game'
  AND s.played_on >= $until::DATE - 1
  AND s.played_on < $until::DATE + $days::INTEGER
  AND (
      s.played_on >= $until
      OR s.session_no NOT IN (
          SELECT a.session_no
          FROM store.attendance AS a
          JOIN store.sessions AS q USING (session_no)
          WHERE q.played_on = $until::DATE - 1
      )
  )
  AND is_asked($seasons, s.season)
ORDER BY s.starts_at, s.session;
