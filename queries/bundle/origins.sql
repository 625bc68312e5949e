-- question: Which load first brought the rows and cells that came in bundles?
-- grain: one row per row or cell, and load of this store that brought it
-- columns:
--   load_no      INTEGER  the load of this store
--   table_name   VARCHAR  the table
--   row_key      VARCHAR  the row, as in the change log
--   column_name  VARCHAR  the cell's column; NULL for the whole row
--   mark         VARCHAR  the mark of the load that first brought it
SELECT
    origins.load_no,
    origins.table_name,
    origins.row_key,
    origins.column_name,
    origins.mark
FROM store.origins AS origins
ORDER BY origins.load_no, origins.table_name, origins.row_key, origins.column_name NULLS FIRST
