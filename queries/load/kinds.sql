-- Writes the kinds of guard of the view `incoming` (kind, area, function); $load_no is the load.
-- A kind and area already there keeps its load and takes the new function.
INSERT INTO store.kinds (kind, area, function, load_no)
SELECT incoming.kind, incoming.area, incoming.function, $load_no
FROM incoming
ON CONFLICT (kind, area) DO UPDATE SET function = excluded.function
