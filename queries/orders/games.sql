-- question: When were games played?
-- params:
--   until DATE  first day not yet known (the day after "through")
-- grain: one row per game of any team before that day
-- columns:
--   team VARCHAR       key
--   played_on DATE     its day in the department
--   day_share DOUBLE   part of that day that had passed when it began, 0 to 1
SELECT
    s.team,
    s.played_on,
    date_diff('second', s.played_on::TIMESTAMP, s.starts_at AT TIME ZONE d.time_zone) / 86400
        AS day_share
FROM store.sessions AS s
JOIN store.teams AS t USING (team)
JOIN store.departments AS d USING (department)
WHERE s.setting = 'game' AND s.played_on < $until
ORDER BY s.team, s.starts_at, s.session_no;
