-- question: After a return, how often was the site hurt again, in a return guard and bare?
-- works on: scope
-- scope: groups
-- grain: one row per body area, days out so far, setting and fortnight since the return
-- columns:
--   area VARCHAR                  body area
--   days_out VARCHAR              days out up to the return: 1–7, 8–28 or over 28
--   setting VARCHAR               game or practice
--   fortnight BIGINT              fortnights since the return, from 0
--   recurrence VARCHAR            early (up to 2 months since the return), late (up to 12) or delayed
--   injuries_guarded BIGINT       hurt again in a guard made for return
--   injuries_unguarded BIGINT     hurt again without one
--   exposures_guarded BIGINT      the site's exposures in one
--   exposures_unguarded BIGINT    the site's exposures without one
--   not_counted BIGINT            exposures in neither: not known, or another guard there
SELECT
    r.area,
    CASE
        WHEN r.returned_on - r.occurred_on <= 8 THEN '1–7 days'
        WHEN r.returned_on - r.occurred_on <= 29 THEN '8–28 days'
        ELSE 'over 28 days'
    END AS days_out,
    e.setting,
    (e.played_on - r.returned_on) // 14 AS fortnight,
    CASE
        WHEN e.played_on <= r.returned_on + INTERVAL 2 MONTH THEN 'early'
        WHEN e.played_on <= r.returned_on + INTERVAL 12 MONTH THEN 'late'
        ELSE 'delayed'
    END AS recurrence,
    count(*) FILTER (is_counted AND guarded AND injured) AS injuries_guarded,
    count(*) FILTER (is_counted AND NOT guarded AND injured) AS injuries_unguarded,
    count(*) FILTER (is_counted AND guarded) AS exposures_guarded,
    count(*) FILTER (is_counted AND NOT guarded) AS exposures_unguarded,
    count(*) FILTER (NOT is_counted) AS not_counted
FROM return_exposures AS e
JOIN returns AS r USING (injury)
GROUP BY ALL
ORDER BY ALL;
