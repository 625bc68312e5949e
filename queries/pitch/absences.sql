-- question: How many days did an injury to the sites cost?
-- works on: scope
-- scope: sites
-- grain: one row per number of days lost, of injuries to athletes who took part in a session of
--   the scope; an injury to both sides is one
-- columns:
--   days_lost BIGINT   full days between onset and return; while open, up to the last day known
--   returned BIGINT    injuries with a return after so many days
--   still_open BIGINT  injuries that have lasted so many days and are open
--   in_sessions BIGINT  of both, those that happened in a session
WITH lasted AS (
    SELECT DISTINCT injury, is_open, session_no IS NOT NULL AS in_session, days_lost(occurred_on, returned_on, $until) AS days_lost
    FROM scoped_injuries
    WHERE athlete_no IN (SELECT athlete_no FROM scoped_exposures)
      AND occurred_on < $until
      AND ($outcome = 'any' OR time_loss)
)
SELECT
    days_lost,
    count(*) FILTER (NOT is_open) AS returned,
    count(*) FILTER (is_open) AS still_open,
    count(*) FILTER (in_session) AS in_sessions
FROM lasted
GROUP BY days_lost
ORDER BY days_lost;
