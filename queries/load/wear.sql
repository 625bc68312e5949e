-- Writes the wear rows of the view `incoming`; $load_no is the load. Sessions and guards have
-- numbers; rows are written in their order. A row already there keeps its load and takes the new
-- cell.
INSERT INTO store.wear (session_no, guard_no, kept_on, load_no)
SELECT sessions.session_no, guards.guard_no, incoming.kept_on, $load_no
FROM incoming
JOIN store.sessions AS sessions ON sessions.session = incoming.session
JOIN store.guards AS guards ON guards.guard = incoming.guard
ORDER BY sessions.session_no, guards.guard_no
ON CONFLICT (session_no, guard_no) DO UPDATE SET kept_on = excluded.kept_on
