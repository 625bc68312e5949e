-- question: What were the guards made of, and how many were made again for a fault?
-- works on: orders
-- scope: guards
-- grain: one row per thing recorded of how guards were made: a lot, a printer, a profile
-- columns:
--   part VARCHAR     lot, profile, material, printer, operator, scan method and more
--   made_of VARCHAR  as the scope says it: `lot PETG-03`
--   guards BIGINT    guards made of it
--   fitted BIGINT    of them fitted
--   remade BIGINT    of these, made again for a fault
SELECT
    b.part, b.made_of,
    count(*) AS guards,
    count(o.fitted_at) AS fitted,
    count(*) FILTER (o.fitted_at IS NOT NULL AND s.counts_as = 'remake') AS remade
FROM guard_build() AS b
JOIN scoped_orders AS o USING (guard_no)
LEFT JOIN successors($until) AS s USING (guard_no)
GROUP BY b.part, b.made_of
ORDER BY
    list_position(['lot', 'printer', 'profile', 'material', 'model version'], b.part) NULLS LAST,
    b.part, b.made_of;
