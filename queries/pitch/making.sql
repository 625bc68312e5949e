-- question: How long does a fitted guard take apart from waiting for the printer and printing?
-- works on: orders
-- scope: guards
-- grain: one row per plan and whole number of hours, of orders with all four instants in their order
-- columns:
--   plan VARCHAR    how its department gets its prints; NULL: not recorded
--   hours BIGINT   from requested to fitted, less from modelled to printed; rounded
--   orders BIGINT  orders that took so long
SELECT
    plan::VARCHAR AS plan,
    round(epoch(fitted_at - requested_at - (printed_at - modelled_at)) / 3600)::BIGINT AS hours,
    count(*) AS orders
FROM scoped_orders
WHERE requested_at <= modelled_at AND modelled_at <= printed_at AND printed_at <= fitted_at
GROUP BY plan, hours
ORDER BY plan, hours;
