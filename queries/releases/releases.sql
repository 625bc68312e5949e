-- question: Which releases of figures were made?
-- grain: one row per release, in the order of their keys
-- columns:
--   release VARCHAR    key
--   released_on DATE   day it was made
--   through DATE       last day known to it
--   form INTEGER       which figures it is made of; higher than this program's: a newer one made it
SELECT release, released_on, through, form
FROM store.releases
ORDER BY release;
