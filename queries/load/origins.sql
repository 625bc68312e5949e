-- Enters which load first brought the rows and cells of the view `incoming`, which came in a bundle
-- with the load $load_no. Where no mark is given it is this load, whose own mark is entered before.
INSERT INTO store.origins (load_no, table_name, row_key, column_name, mark)
SELECT
    $load_no,
    incoming.table_name,
    incoming.row_key,
    incoming.column_name,
    coalesce(incoming.mark, own.mark)
FROM incoming
LEFT JOIN store.marks AS own ON own.load_no = $load_no AND own.is_own
