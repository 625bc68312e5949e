-- question: How many guards made of what is asked for lie outside the rest of the scope?
-- works on: orders
-- scope: guards
-- grain: one row
-- columns:
--   guards BIGINT  0 where nothing is asked for
SELECT count(*) AS guards
FROM guards_made_of($made_of)
WHERE guard_no NOT IN (SELECT guard_no FROM scoped_guards);
