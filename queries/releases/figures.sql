-- question: Which figures were released that are no counts?
-- grain: one row per release, kind and figure; a kind that was not renewed has none
-- columns:
--   release VARCHAR       key
--   kind VARCHAR          guard kind
--   figure VARCHAR        what it is
--   estimate DOUBLE       the figure; NULL: not known
--   estimate_low DOUBLE   lower limit; NULL: none
--   estimate_high DOUBLE  upper limit; NULL: none
--   words VARCHAR         how it is told; NULL: by its number alone
SELECT release, kind, figure, estimate, estimate_low, estimate_high, words
FROM store.release_figures
ORDER BY release, kind, figure;
