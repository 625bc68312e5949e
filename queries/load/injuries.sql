-- Writes the injuries of the view `incoming`; $load_no is the load. Athletes and sessions have
-- numbers; an injury without a session has none. An injury already there keeps its load and takes
-- the new cells.
INSERT INTO store.injuries (
    injury, athlete_no, occurred_on, session_no, area, side, tissue, pathology, onset, mechanism,
    history, reported_on, returned_on, note, load_no
)
SELECT
    incoming.injury,
    athletes.athlete_no,
    incoming.occurred_on,
    sessions.session_no,
    incoming.area,
    incoming.side,
    incoming.tissue,
    incoming.pathology,
    incoming.onset,
    incoming.mechanism,
    incoming.history,
    incoming.reported_on,
    incoming.returned_on,
    incoming.note,
    $load_no
FROM incoming
JOIN store.athletes AS athletes ON athletes.athlete = incoming.athlete
LEFT JOIN store.sessions AS sessions ON sessions.session = incoming.session
ON CONFLICT (injury) DO UPDATE SET
    athlete_no = excluded.athlete_no,
    occurred_on = excluded.occurred_on,
    session_no = excluded.session_no,
    area = excluded.area,
    side = excluded.side,
    tissue = excluded.tissue,
    pathology = excluded.pathology,
    onset = excluded.onset,
    mechanism = excluded.mechanism,
    history = excluded.history,
    reported_on = excluded.reported_on,
    returned_on = excluded.returned_on,
    note = excluded.note
