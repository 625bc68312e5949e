-- question: Of how many guards of the scope is no stage known, although they are?
-- works on: orders
-- scope: guards
-- grain: one row
-- columns:
--   guards BIGINT  guards whose making is not recorded: nothing can be said about their time
SELECT count(*) AS guards
FROM news_of_guards($until)
WHERE NOT is_staged AND (is_worn OR is_undated);
