-- question: Which loads brought rows of which file?
-- grain: one row per file and load
-- columns:
--   file        VARCHAR  its label
--   table_name  VARCHAR  the table its rows are of
--   sha256      VARCHAR  of the file then; empty for entries
--   load_no     INTEGER  the load
SELECT t.file, t.table_name, t.sha256, t.load_no
FROM store.load_tables AS t
ORDER BY t.file, t.load_no
