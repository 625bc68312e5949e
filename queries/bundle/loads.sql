-- question: When was each load written?
-- grain: one row per load
-- columns:
--   load_no    INTEGER      its number
--   loaded_at  TIMESTAMPTZ  instant
SELECT loads.load_no, loads.loaded_at
FROM store.loads AS loads
ORDER BY loads.load_no
