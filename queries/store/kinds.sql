-- question: Which kinds does the store hold, as they are loaded?
-- grain: one row per guard kind and area it covers
-- columns:
--   kind      VARCHAR  key
--   area      VARCHAR  one of its word list
--   function  VARCHAR  one of its word list; NULL when not given
SELECT
    kinds.kind AS kind,
    CAST(kinds.area AS VARCHAR) AS area,
    CAST(kinds.function AS VARCHAR) AS function
FROM store.kinds AS kinds
ORDER BY kind, area
