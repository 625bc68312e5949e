-- Enters every changed cell of the view `incoming` under the load $load_no, as text.
INSERT INTO store.changes (
    load_no, file, file_row, table_name, row_key, column_name, old_value, new_value
)
SELECT
    $load_no,
    incoming.file,
    incoming.file_row,
    incoming.table_name,
    incoming.row_key,
    incoming.column_name,
    incoming.old_value,
    incoming.new_value
FROM incoming
