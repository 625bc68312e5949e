-- question: What does the store hold as attendance, as it is loaded?
-- grain: one row per session and athlete
-- columns:
--   session  VARCHAR  key
--   athlete  VARCHAR  key
--   part     VARCHAR  one of its word list
--   reason   VARCHAR  one of its word list; NULL when not given
--   minutes  DOUBLE   minutes played; NULL when not given
--   plays    INTEGER  whole number; NULL when not given
SELECT
    sessions.session AS session,
    athletes.athlete AS athlete,
    CAST(attendance.part AS VARCHAR) AS part,
    CAST(attendance.reason AS VARCHAR) AS reason,
    attendance.minutes AS minutes,
    attendance.plays AS plays
FROM store.attendance AS attendance
JOIN store.sessions AS sessions ON sessions.session_no = attendance.session_no
JOIN store.athletes AS athletes ON athletes.athlete_no = attendance.athlete_no
ORDER BY session, athlete
