-- question: Which decisions does the store hold, as they are loaded?
-- grain: one row per decision
-- columns:
--   decision    VARCHAR  key
--   decided_on  DATE     day
--   department  VARCHAR  key; NULL when not given
--   text        VARCHAR  as written
--   due_on      DATE     day; NULL when not given
--   done_on     DATE     day; NULL when not given
SELECT
    decisions.decision AS decision,
    decisions.decided_on AS decided_on,
    decisions.department AS department,
    decisions.text AS text,
    decisions.due_on AS due_on,
    decisions.done_on AS done_on
FROM store.decisions AS decisions
ORDER BY decision
