-- question: Which sessions of a team were recorded twice?
-- touches: compare (exposures and rates), games (the clock), roster (availability)
-- why: Its exposures count twice, its injuries once: rates are too low, and every clock
--   ticks once too often.
-- mend: Keep one of the two; move its injuries and wear to it.
-- works on: checks
-- scope: checks
-- grain: one row per session that starts within an hour of the one before of its team and
--   setting
-- columns: doubts
WITH placed AS (
    SELECT
        *,
        lag(session) OVER before AS other,
        starts_at - lag(starts_at) OVER before AS gap
    FROM checked_sessions
    WINDOW before AS (PARTITION BY team, setting ORDER BY starts_at, session)
)
SELECT
    department, team, athlete, name, played_on AS dated_on, 'sessions' AS table_name,
    session AS key,
    setting || ' starts ' || (epoch(gap) // 60)::BIGINT || ' minutes after session '
        || other AS detail
FROM placed
WHERE gap < INTERVAL 1 HOUR
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
