-- The cells that the load $load_no changed, as text.
SELECT
    changes.table_name, changes.row_key, changes.column_name, changes.old_value, changes.new_value
FROM store.changes AS changes
WHERE changes.load_no = $load_no
ORDER BY changes.table_name, changes.row_key, changes.column_name
