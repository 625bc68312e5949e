-- Writes the attendance rows of the view `incoming`; $load_no is the load. Sessions and athletes
-- have numbers. A row already there keeps its load and takes the new cells. New rows are written in
-- the order of their numbers, which ON CONFLICT would not keep.
UPDATE store.attendance AS attendance
SET
    part = incoming.part,
    reason = incoming.reason,
    minutes = incoming.minutes,
    plays = incoming.plays
FROM incoming
JOIN store.sessions AS sessions ON sessions.session = incoming.session
JOIN store.athletes AS athletes ON athletes.athlete = incoming.athlete
WHERE
    attendance.session_no = sessions.session_no
    AND attendance.athlete_no = athletes.athlete_no;

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
ANTI JOIN store.attendance AS held
    ON held.session_no = sessions.session_no AND held.athlete_no = athletes.athlete_no
ORDER BY sessions.session_no, athletes.athlete_no
