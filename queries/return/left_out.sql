-- question: Which injuries that cost time at the sites of the scope are not followed, and why?
-- works on: scope
-- scope: groups
-- grain: one row per reason that there is
-- columns:
--   what VARCHAR   injuries
--   why VARCHAR    the reason in words
--   number BIGINT  how many
WITH people AS (
    SELECT DISTINCT athlete_no
    FROM asked_places($seasons, $departments, $teams, $sports, $sexes, $position_groups)
),
lost AS (
    SELECT DISTINCT
        i.injury,
        CASE
            WHEN i.side IS NULL THEN 'side not recorded'
            ELSE 'in no season of a team in scope'
        END AS why
    FROM all_injuries AS i
    SEMI JOIN people USING (athlete_no)
    SEMI JOIN scoped_sites AS x ON x.area = i.area AND coalesce(x.side = i.side, true)
    ANTI JOIN returns AS r ON r.injury = i.injury
    WHERE i.time_loss AND i.occurred_on < $until
)
SELECT 'injuries' AS what, why, count(*) AS number
FROM lost
GROUP BY why
ORDER BY number DESC, why;
