-- question: On each day out, how many were out with a return guard in hand and how many without, and
--   how many of each came back on it?
-- works on: scope
-- scope: groups
-- grain: one row per body area and day since the injury with somebody still out
-- columns:
--   area VARCHAR                  body area
--   day BIGINT                    days since the injury; day 1 is the day after it
--   injuries_guarded BIGINT       returns that day with a guard made for return in hand
--   injuries_unguarded BIGINT     returns that day without one
--   exposures_guarded BIGINT      out until that day, with one in hand by then
--   exposures_unguarded BIGINT    out until that day, with none
WITH days AS (
    SELECT
        r.injury, r.area, d.day,
        coalesce(r.occurred_on + d.day::INTEGER = r.returned_on, false) AS is_back,
        EXISTS (
            SELECT 1 FROM return_guards AS g
            WHERE g.injury = r.injury
              AND g.in_hand_on <= r.occurred_on + d.day::INTEGER
              AND coalesce(g.over_on > r.occurred_on + d.day::INTEGER, true)
        ) AS guarded
    FROM returns AS r
    CROSS JOIN unnest(
        range(1, coalesce(r.returned_on, $until::DATE - 1) - r.occurred_on + 1)
    ) AS d(day)
)
SELECT
    area, day,
    count(*) FILTER (guarded AND is_back) AS injuries_guarded,
    count(*) FILTER (NOT guarded AND is_back) AS injuries_unguarded,
    count(*) FILTER (guarded) AS exposures_guarded,
    count(*) FILTER (NOT guarded) AS exposures_unguarded
FROM days
GROUP BY area, day
ORDER BY area, day;
