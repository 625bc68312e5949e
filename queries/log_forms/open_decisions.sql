-- question: Which decisions are still to be done?
-- params:
-- grain: one row per decision that is not done; the first due first
-- columns:
--   decision VARCHAR    key
--   text VARCHAR        as written
--   department VARCHAR  key; NULL: it concerns every department
--   due_on DATE         NULL: no day was set
SELECT decision, text, department, due_on
FROM decisions_known(DATE '9999-12-31')
WHERE done_on IS NULL
ORDER BY due_on NULLS LAST, decided_on, decision;
