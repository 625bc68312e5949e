-- question: Which guards were asked for in the place of another, and why?
-- params:
-- grain: one row per guard that replaces another
-- columns:
--   guard VARCHAR      key
--   remake_of VARCHAR  the guard it replaces
--   reason VARCHAR     NULL: none recorded
SELECT guard, remake_of, remake_reason::VARCHAR AS reason
FROM store.guards
WHERE remake_of IS NOT NULL
ORDER BY guard;
