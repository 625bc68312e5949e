-- question: How many guards does an athlete get, and how many hours does a print take?
-- works on: orders
-- scope: guards
-- grain: one row
-- columns:
--   athletes BIGINT      athletes with a fitted preventive guard
--   guards BIGINT        their first ones: fitted, preventive, not in another's place
--   timed BIGINT         printed guards with their hours recorded
--   print_hours DOUBLE   median of those hours; NULL without any
SELECT
    count(DISTINCT athlete_no) FILTER (fitted_at IS NOT NULL AND purpose = 'preventive')
        AS athletes,
    count(*) FILTER (fitted_at IS NOT NULL AND purpose = 'preventive' AND remake_of IS NULL)
        AS guards,
    count(*) FILTER (printed_at IS NOT NULL AND print_hours > 0) AS timed,
    median(print_hours) FILTER (printed_at IS NOT NULL AND print_hours > 0) AS print_hours
FROM scoped_orders;
