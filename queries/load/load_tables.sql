-- Enters the files of the view `incoming` under the load $load_no: their hashes and row counts.
INSERT INTO store.load_tables (
    load_no, file, sha256, table_name, new_rows, changed_rows, same_rows
)
SELECT
    $load_no,
    incoming.file,
    incoming.sha256,
    incoming.table_name,
    incoming.new_rows,
    incoming.changed_rows,
    incoming.same_rows
FROM incoming
ORDER BY incoming.file
