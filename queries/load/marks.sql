-- Enters the marks of the view `incoming`: loads of other stores that came with the load $load_no.
INSERT INTO store.marks (mark, load_no, made_at, is_own)
SELECT incoming.mark, $load_no, incoming.made_at, false
FROM incoming
