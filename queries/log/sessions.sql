-- question: In which sessions can attendance be written down, and how much of it is there?
-- scope: teams
-- grain: one row per session of the scope; the 500 last ones
-- columns:
--   session VARCHAR           key
--   team VARCHAR              key
--   season VARCHAR            as in sessions
--   starts_at TIMESTAMPTZ     its start
--   local_start TIMESTAMP     its start in the department's time
--   setting VARCHAR           game or practice
--   label VARCHAR             NULL: none
--   recorded BIGINT           athletes whose attendance is recorded
--   wear_complete VARCHAR     whether wear was recorded for everybody: yes or no; NULL: nobody said
SELECT
    s.session, s.team, s.season, s.starts_at,
    s.starts_at AT TIME ZONE d.time_zone AS local_start,
    s.setting::VARCHAR AS setting,
    s.label,
    coalesce(a.athletes, 0) AS recorded,
    s.wear_complete::VARCHAR AS wear_complete
FROM store.sessions AS s
JOIN asked_teams($departments, $teams, $sports, $sexes) AS t USING (team)
JOIN store.departments AS d USING (department)
LEFT JOIN (
    SELECT session_no, count(*) AS athletes FROM store.attendance GROUP BY session_no
) AS a USING (session_no)
WHERE s.played_on < $until
  AND is_asked($seasons, s.season)
ORDER BY s.starts_at DESC, s.session
LIMIT 500;
