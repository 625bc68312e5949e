-- question: Which kinds of guard are there, and what do they cover?
-- params:
-- grain: one row per kind
-- columns:
--   kind VARCHAR   key
--   areas VARCHAR  body areas, with commas between
SELECT kind, string_agg(area::VARCHAR, ', ' ORDER BY area) AS areas
FROM store.kinds
GROUP BY kind
ORDER BY kind;
