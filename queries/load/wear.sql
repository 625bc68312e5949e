-- Writes the wear rows of the view `incoming`; $load_no is the load. Sessions and guards have
-- numbers. A row already there keeps its load and takes the new cell. New rows are written in the
-- order of their numbers, which ON CONFLICT would not keep.
UPDATE store.wear AS wear
SET kept_on = incoming.kept_on
FROM incoming
JOIN store.sessions AS sessions ON sessions.session = incoming.session
JOIN store.guards AS guards ON guards.guard = incoming.guard
WHERE wear.session_no = sessions.session_no AND wear.guard_no = guards.guard_no;

INSERT INTO store.wear (session_no, guard_no, kept_on, load_no)
SELECT sessions.session_no, guards.guard_no, incoming.kept_on, $load_no
FROM incoming
JOIN store.sessions AS sessions ON sessions.session = incoming.session
JOIN store.guards AS guards ON guards.guard = incoming.guard
ANTI JOIN store.wear AS held
    ON held.session_no = sessions.session_no AND held.guard_no = guards.guard_no
ORDER BY sessions.session_no, guards.guard_no
