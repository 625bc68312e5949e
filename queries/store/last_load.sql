-- question: Which load was the last one?
-- grain: one row
-- columns:
--   load_no  INTEGER  its number; 0 when nothing was loaded yet
SELECT coalesce(max(loads.load_no), 0) AS load_no
FROM store.loads AS loads
