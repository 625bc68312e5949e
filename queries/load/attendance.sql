-- Writes the attendance rows of the view `incoming`; $load_no is the load. Sessions and athletes
-- have numbers; rows are written in their order. A row already there keeps its load and takes the
-- new cells.
INSERT INTO store.attendance (session_no, athlete_no, part, reason, minutes, plays, load_no)
SELECT
    sessions.session_no,
    athletes.athlete_no,
    incoming.part,
    incoming.reason,
    incoming.minutes,
    incoming.plays,
    $load_no
FROM incoming
JOIN store.sessions AS sessions ON sessions.session = incoming.session
JOIN store.athletes AS athletes ON athletes.athlete = incoming.athlete
ORDER BY sessions.session_no, athletes.athlete_no
ON CONFLICT (session_no, athlete_no) DO UPDATE SET
    part = excluded.part,
    reason = excluded.reason,
    minutes = excluded.minutes,
    plays = excluded.plays
