-- Writes the stages of the view `incoming`; $load_no is the load. Their guards have numbers.
-- A stage already there keeps its load and takes the new note. New rows are written guard by guard
-- and in time, which ON CONFLICT would not keep.
UPDATE store.stages AS stages
SET note = incoming.note
FROM incoming
JOIN store.guards AS guards ON guards.guard = incoming.guard
WHERE
    stages.guard_no = guards.guard_no
    AND CAST(stages.stage AS VARCHAR) = incoming.stage
    AND stages.reached_at = incoming.reached_at;

INSERT INTO store.stages (guard_no, stage, reached_at, note, load_no)
SELECT guards.guard_no, incoming.stage, incoming.reached_at, incoming.note, $load_no
FROM incoming
JOIN store.guards AS guards ON guards.guard = incoming.guard
ANTI JOIN store.stages AS held
    ON
        held.guard_no = guards.guard_no
        AND CAST(held.stage AS VARCHAR) = incoming.stage
        AND held.reached_at = incoming.reached_at
ORDER BY guards.guard_no, incoming.reached_at, incoming.stage
