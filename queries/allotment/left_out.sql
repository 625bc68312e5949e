-- question: Which guards are in no week's prints, although they were made or worn, and why?
-- works on: orders
-- scope: guards
-- grain: one row per reason
-- columns:
--   what VARCHAR    what was recorded
--   why VARCHAR     why it is not counted
--   number BIGINT   how many
WITH listed AS (
    SELECT 'guards' AS what, 'made, but the stage “printed” is not recorded' AS why
    FROM scoped_orders
    WHERE printed_at IS NULL
      AND coalesce(finished_at, shipped_at, delivered_at, fitted_at, retired_at) IS NOT NULL
    UNION ALL
    SELECT 'guards', 'worn, but no stage is recorded'
    FROM scoped_guards AS g
    WHERE g.guard_no NOT IN (SELECT guard_no FROM scoped_orders)
      AND g.guard_no IN (
          SELECT w.guard_no
          FROM worn_guards() AS w
          JOIN store.sessions AS s USING (session_no)
          WHERE s.played_on < $until
      )
)
SELECT what, why, count(*) AS number
FROM listed
GROUP BY what, why
ORDER BY number DESC, why;
