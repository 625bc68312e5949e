-- question: What does the store hold as wear, as it is loaded?
-- grain: one row per session and guard
-- columns:
--   session  VARCHAR  key
--   guard    VARCHAR  key
--   kept_on  VARCHAR  one of its word list; NULL when not given
SELECT
    sessions.session AS session,
    guards.guard AS guard,
    CAST(wear.kept_on AS VARCHAR) AS kept_on
FROM store.wear AS wear
JOIN store.sessions AS sessions ON sessions.session_no = wear.session_no
JOIN store.guards AS guards ON guards.guard_no = wear.guard_no
ORDER BY session, guard
