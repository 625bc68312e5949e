-- question: Which guards name another that they replace, and are not counted as such, and why?
-- works on: orders
-- params:
--   seasons VARCHAR[]          seasons of the scope, NULL for all (so too the lists below)
--   until DATE                 first day not yet known (the day after "through")
--   departments VARCHAR[]      departments
--   teams VARCHAR[]            teams
--   sports VARCHAR[]           sports
--   sexes VARCHAR[]            sexes of the teams
--   position_groups VARCHAR[]  position groups, as in roster
--   kinds VARCHAR[]            guard kinds; never NULL
--   areas VARCHAR[]            body areas, of those the kinds cover
--   sides VARCHAR[]            sides
-- grain: one row per reason
-- columns:
--   what VARCHAR    what was recorded
--   why VARCHAR     why it is not counted
--   number BIGINT   how many
WITH orders AS (SELECT * FROM scoped_orders),
listed AS (
    SELECT CASE
        WHEN o.remake_of = o.guard THEN 'it names itself as the one it replaces'
        WHEN g.guard IS NULL THEN 'the guard it replaces is not known'
        WHEN o.state = 'cancelled' THEN 'it was cancelled before it was fitted'
        WHEN g.athlete_no <> o.athlete_no THEN 'it replaces a guard of another athlete'
    END AS why
    FROM orders AS o
    LEFT JOIN store.guards AS g ON g.guard = o.remake_of
    WHERE o.remake_of IS NOT NULL
)
SELECT 'guards asked for anew' AS what, why, count(*) AS number
FROM listed
WHERE why IS NOT NULL
GROUP BY why
ORDER BY number DESC, why;
