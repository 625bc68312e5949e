-- The load $load_no: when it was, and what it read.
SELECT loads.loaded_at, tables.file, tables.table_name, tables.new_rows, tables.changed_rows
FROM store.loads AS loads
LEFT JOIN store.load_tables AS tables ON tables.load_no = loads.load_no
WHERE loads.load_no = $load_no
ORDER BY tables.file
