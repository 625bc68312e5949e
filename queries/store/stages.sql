-- question: Which stages does the store hold, as they are loaded?
-- grain: one row per guard, stage and instant
-- columns:
--   guard       VARCHAR      key
--   stage       VARCHAR      one of its word list
--   reached_at  TIMESTAMPTZ  instant
--   note        VARCHAR      as written; NULL when not given
SELECT
    guards.guard AS guard,
    CAST(stages.stage AS VARCHAR) AS stage,
    stages.reached_at AS reached_at,
    stages.note AS note
FROM store.stages AS stages
JOIN store.guards AS guards ON guards.guard_no = stages.guard_no
ORDER BY guard, stage, reached_at
