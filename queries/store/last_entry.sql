-- question: What was written last, and what did it bring?
-- grain: one row per table that it wrote to; none when nothing was written yet
-- columns:
--   load_no INTEGER        its number
--   loaded_at TIMESTAMPTZ  when
--   table_name VARCHAR     the table; NULL: none named
--   file VARCHAR           the file or the entry; NULL: none named
--   new_rows BIGINT        rows that were new
--   changed_rows BIGINT    rows that changed
--   cells BIGINT           cells that it changed, in all tables
SELECT
    l.load_no,
    l.loaded_at,
    t.table_name,
    t.file,
    coalesce(t.new_rows, 0)::BIGINT AS new_rows,
    coalesce(t.changed_rows, 0)::BIGINT AS changed_rows,
    (SELECT count(*) FROM store.changes AS c WHERE c.load_no = l.load_no) AS cells
FROM store.loads AS l
LEFT JOIN store.load_tables AS t USING (load_no)
WHERE l.load_no = (SELECT max(load_no) FROM store.loads)
ORDER BY t.file;
