-- Writes the stages of the view `incoming`; $load_no is the load. Their guards have numbers.
-- A stage already there keeps its load and takes the new note.
INSERT INTO store.stages (guard_no, stage, reached_at, note, load_no)
SELECT guards.guard_no, incoming.stage, incoming.reached_at, incoming.note, $load_no
FROM incoming
JOIN store.guards AS guards ON guards.guard = incoming.guard
ORDER BY guards.guard_no, incoming.reached_at, incoming.stage
ON CONFLICT (guard_no, stage, reached_at) DO UPDATE SET note = excluded.note
