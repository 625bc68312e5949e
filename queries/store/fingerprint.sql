-- question: Which state is the store in, as a short mark that is the same wherever the same was loaded?
-- grain: one row
-- columns:
--   loads        INTEGER  loads and entries that are in it
--   fingerprint  VARCHAR  12 letters of a hash over every file loaded, entries by their marks
WITH brought AS (
    SELECT
        concat_ws(
            ' ',
            tables.load_no,
            tables.table_name,
            coalesce(nullif(tables.sha256, ''), marks.mark),
            tables.new_rows,
            tables.changed_rows
        ) AS line
    FROM store.load_tables AS tables
    LEFT JOIN store.marks AS marks ON marks.load_no = tables.load_no AND marks.is_own
)

SELECT
    CAST((SELECT count(*) FROM store.loads) AS INTEGER) AS loads,
    substr(sha256(coalesce(string_agg(brought.line, chr(10) ORDER BY brought.line), '')), 1, 12)
        AS fingerprint
FROM brought
