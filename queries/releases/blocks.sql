-- question: What became of each kind of guard in each release?
-- grain: one row per release and kind
-- columns:
--   release VARCHAR      key
--   kind VARCHAR         guard kind
--   made_in VARCHAR      release in which its figures were made
--   departments INTEGER  departments its figures are of
--   note VARCHAR         why it was not renewed, and who agreed; NULL: nothing to say
SELECT release, kind, made_in, departments, note
FROM store.release_blocks
ORDER BY release, kind;
