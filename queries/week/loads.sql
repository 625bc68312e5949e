-- question: What was loaded into the store between two days?
-- params:
--   since DATE  last day that was known before
--   until DATE  first day not yet known (the day after "through")
-- grain: one row per load
-- columns:
--   load_no INTEGER        number of the load
--   loaded_at TIMESTAMPTZ  when; its day is that of UTC
--   what VARCHAR           names of its files, or of an entry; NULL: none
--   files BIGINT           files read, or tables an entry wrote to
--   new_rows BIGINT        rows that were new
--   changed_rows BIGINT    rows that replaced an earlier version
SELECT
    l.load_no, l.loaded_at,
    string_agg(
        DISTINCT split_part(t.file, ' › ', 1), ', ' ORDER BY split_part(t.file, ' › ', 1)
    ) AS what,
    count(t.file) AS files,
    coalesce(sum(t.new_rows), 0)::BIGINT AS new_rows,
    coalesce(sum(t.changed_rows), 0)::BIGINT AS changed_rows
FROM store.loads AS l
LEFT JOIN store.load_tables AS t USING (load_no)
WHERE (l.loaded_at AT TIME ZONE 'UTC')::DATE > $since
  AND (l.loaded_at AT TIME ZONE 'UTC')::DATE < $until
GROUP BY l.load_no, l.loaded_at
ORDER BY l.load_no;
