-- question: How many departments of each plan ordered guards?
-- works on: orders
-- scope: guards
-- grain: one row per plan with an order
-- columns:
--   plan VARCHAR        how its departments get their prints; NULL: not recorded
--   departments BIGINT  departments with an order
SELECT plan::VARCHAR AS plan, count(DISTINCT department) AS departments
FROM scoped_orders
GROUP BY plan
ORDER BY plan;
