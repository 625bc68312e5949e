-- question: Which sessions does the store hold, as they are loaded?
-- grain: one row per session
-- columns:
--   session      VARCHAR      key
--   team         VARCHAR      key
--   season       VARCHAR      key
--   starts_at    TIMESTAMPTZ  instant
--   setting      VARCHAR      one of its word list
--   season_part  VARCHAR      one of its word list; NULL when not given
--   label        VARCHAR      as written; NULL when not given
SELECT
    sessions.session AS session,
    sessions.team AS team,
    sessions.season AS season,
    sessions.starts_at AS starts_at,
    CAST(sessions.setting AS VARCHAR) AS setting,
    CAST(sessions.season_part AS VARCHAR) AS season_part,
    sessions.label AS label
FROM store.sessions AS sessions
ORDER BY session
