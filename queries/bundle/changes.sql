-- question: Which cells were changed, from what to what, by which load?
-- grain: one row per changed cell and load
-- columns:
--   load_no      INTEGER  the load of this store that changed it
--   table_name   VARCHAR  the table
--   row_key      VARCHAR  the row, as in the change log
--   column_name  VARCHAR  the column
--   old_value    VARCHAR  text before; NULL when it was missing
--   new_value    VARCHAR  text after; NULL when it went missing
--   mark         VARCHAR  the load's own mark; NULL when it only took a bundle in
SELECT
    changes.load_no,
    changes.table_name,
    changes.row_key,
    changes.column_name,
    changes.old_value,
    changes.new_value,
    own.mark
FROM store.changes AS changes
LEFT JOIN store.marks AS own ON own.load_no = changes.load_no AND own.is_own
ORDER BY changes.load_no, changes.table_name, changes.row_key, changes.column_name
