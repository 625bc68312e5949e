-- question: Which sessions lie nearest to a day, of an athlete's teams or of all?
-- params:
--   athlete VARCHAR  key; NULL: sessions of every team
--   day DATE         the day; NULL: the last sessions first
-- grain: one row per session
-- columns:
--   session VARCHAR    key
--   played_on DATE     its day in the department
--   starts VARCHAR     its time of day in the department
--   team VARCHAR       key
--   setting VARCHAR    game or practice
--   label VARCHAR      NULL: none recorded
--   days_away INTEGER  days from the day asked for; NULL without one
SELECT
    s.session, s.played_on,
    strftime(s.starts_at AT TIME ZONE d.time_zone, '%H:%M') AS starts,
    s.team,
    s.setting::VARCHAR AS setting,
    s.label,
    abs(s.played_on - $day::DATE)::INTEGER AS days_away
FROM store.sessions AS s
JOIN store.teams AS t USING (team)
JOIN store.departments AS d USING (department)
WHERE $athlete::VARCHAR IS NULL
   OR EXISTS (
       SELECT 1
       FROM store.roster AS r
       JOIN store.athletes AS a USING (athlete_no)
       WHERE a.athlete = $athlete AND r.team = s.team AND r.season = s.season
   )
ORDER BY days_away NULLS LAST, s.starts_at DESC, s.session;
