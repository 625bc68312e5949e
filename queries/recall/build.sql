-- question: What was one guard made of, and how many were made alike?
-- params:
--   guard VARCHAR  key
-- grain: one row per part recorded of it
-- columns:
--   made_of VARCHAR  as the scope says it: `lot PETG-03`
--   guards BIGINT    guards made of it, this one too
WITH build AS (SELECT * FROM guard_build())
SELECT a.made_of, count(*) AS guards
FROM build AS own
JOIN store.guards AS g USING (guard_no)
JOIN build AS a ON a.made_of = own.made_of AND a.part = own.part
WHERE g.guard = $guard
GROUP BY a.made_of, a.part
ORDER BY
    list_position(['lot', 'profile', 'printer', 'material', 'model version'], a.part) NULLS LAST,
    a.made_of;
