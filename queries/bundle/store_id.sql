-- question: Which store is this?
-- grain: one row
-- columns:
--   store_id  VARCHAR  a random word that it was given when it was made; a copy keeps it
SELECT max(about.value) AS store_id
FROM store.about AS about
WHERE about.name = 'store_id'
