-- question: In the same sessions of a team, how often were drawn sites injured whose turn had come,
--   and those whose turn had not?
-- works on: scope
-- scope: sites
-- grain: one row per draw, body area and session with an injury, and one row (stratum NULL) that
--   sums those without any
-- columns:
--   stratum VARCHAR           body area, session and draw; NULL for the summed rest
--   come_guarded BIGINT       site-exposures with an injury, turn come, a preventive guard worn
--   come_bare BIGINT          site-exposures with an injury, turn come, no such guard worn
--   come_unknown BIGINT       site-exposures with an injury, turn come, not known whether worn
--   waiting_guarded BIGINT    site-exposures with an injury, turn not come, such a guard worn
--   waiting_bare BIGINT       site-exposures with an injury, turn not come, no such guard worn
--   waiting_unknown BIGINT    site-exposures with an injury, turn not come, not known whether worn
--   exposures_come BIGINT     site-exposures, turn come
--   exposures_waiting BIGINT  site-exposures, turn not come
--   strata BIGINT             strata this row stands for
--   played_on DATE            its day; NULL for the summed rest
WITH cells AS (
    SELECT
        draw, area, session_no,
        any_value(played_on) AS played_on,
        count(*) FILTER (injured AND is_come AND guarded) AS come_guarded,
        count(*) FILTER (injured AND is_come AND NOT guarded) AS come_bare,
        count(*) FILTER (injured AND is_come AND guarded IS NULL) AS come_unknown,
        count(*) FILTER (injured AND NOT is_come AND guarded) AS waiting_guarded,
        count(*) FILTER (injured AND NOT is_come AND NOT guarded) AS waiting_bare,
        count(*) FILTER (injured AND NOT is_come AND guarded IS NULL) AS waiting_unknown,
        count(*) FILTER (is_come) AS exposures_come,
        count(*) FILTER (NOT is_come) AS exposures_waiting,
        bool_or(injured) AS is_hurt
    FROM turn_exposures($until, $kinds)
    GROUP BY draw, area, session_no
),
named AS (
    SELECT
        c.*,
        CASE WHEN is_hurt THEN concat_ws(' · ', area, s.session, 'draw ' || draw) END AS stratum
    FROM cells AS c
    JOIN store.sessions AS s USING (session_no)
)
SELECT
    stratum,
    sum(come_guarded)::BIGINT AS come_guarded,
    sum(come_bare)::BIGINT AS come_bare,
    sum(come_unknown)::BIGINT AS come_unknown,
    sum(waiting_guarded)::BIGINT AS waiting_guarded,
    sum(waiting_bare)::BIGINT AS waiting_bare,
    sum(waiting_unknown)::BIGINT AS waiting_unknown,
    sum(exposures_come)::BIGINT AS exposures_come,
    sum(exposures_waiting)::BIGINT AS exposures_waiting,
    count(*) AS strata,
    CASE WHEN stratum IS NOT NULL THEN any_value(played_on) END AS played_on
FROM named
GROUP BY stratum
ORDER BY stratum NULLS LAST;
