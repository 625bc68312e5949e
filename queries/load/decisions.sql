-- Writes the decisions of the view `incoming`; $load_no is the load.
-- A decision already there keeps its load and takes the new cells.
INSERT INTO store.decisions (decision, decided_on, department, text, due_on, done_on, load_no)
SELECT
    incoming.decision,
    incoming.decided_on,
    incoming.department,
    incoming.text,
    incoming.due_on,
    incoming.done_on,
    $load_no
FROM incoming
ON CONFLICT (decision) DO UPDATE SET
    decided_on = excluded.decided_on,
    department = excluded.department,
    text = excluded.text,
    due_on = excluded.due_on,
    done_on = excluded.done_on
