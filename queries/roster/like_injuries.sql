-- question: How many days did injuries of each body area cost, whoever had them?
-- params:
--   until DATE  first day not yet known (the day after "through")
-- grain: one row per body area and number of days lost, 1 or more
-- columns:
--   area VARCHAR      body area
--   days_lost BIGINT  full days between onset and return; while open, up to the last day known
--   returned BIGINT   injuries with a return after so many days
--   still_open BIGINT injuries that have lasted so many days and are open
WITH known AS (
    SELECT
        area::VARCHAR AS area,
        coalesce(returned_on >= $until, true) AS is_open,
        days_lost(occurred_on, returned_on, $until) AS days_lost
    FROM store.injuries
    WHERE coalesce(reported_on, occurred_on) < $until AND occurred_on < $until
)
SELECT
    area, days_lost,
    count(*) FILTER (NOT is_open) AS returned,
    count(*) FILTER (is_open) AS still_open
FROM known
WHERE days_lost > 0
GROUP BY area, days_lost
ORDER BY area, days_lost;
