-- question: Which loads, of this store and of others, has this store taken in?
-- grain: one row per load
-- columns:
--   mark     VARCHAR      the load's own random word
--   load_no  INTEGER      the load of this store that brought it
--   made_at  TIMESTAMPTZ  instant at which it was written, where it was made
--   is_own   BOOLEAN      whether it was made here
SELECT marks.mark, marks.load_no, marks.made_at, marks.is_own
FROM store.marks AS marks
ORDER BY marks.mark
