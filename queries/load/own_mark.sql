-- Gives the load $load_no a mark of its own: it brought something that was decided here.
INSERT INTO store.marks (mark, load_no, made_at, is_own)
VALUES (CAST(uuid() AS VARCHAR), $load_no, now(), true)
