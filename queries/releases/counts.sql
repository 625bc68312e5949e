-- question: Which counts were released, and what was told of each?
-- grain: one row per release, kind and count; a kind that was not renewed has none
-- columns:
--   release VARCHAR          key
--   kind VARCHAR             guard kind
--   count VARCHAR            what is counted
--   value INTEGER            the count
--   told VARCHAR             shown, hidden, within a range, or not told
--   low INTEGER              lower end of that range; NULL: none
--   high INTEGER             upper end; NULL: none
--   few_departments VARCHAR  yes: too few departments stand behind it
--   parts VARCHAR            counts that add up to it, a sum a line; NULL: none
SELECT release, kind, count, value, told::VARCHAR AS told, low, high,
    few_departments::VARCHAR AS few_departments, parts
FROM store.release_counts
ORDER BY release, kind, count;
