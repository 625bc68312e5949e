-- question: Which departments agreed in writing that figures of few departments are released?
-- grain: one row per department
-- columns:
--   department VARCHAR  key
--   agreed_on DATE      day of the agreement
--   words VARCHAR       what was agreed, and by whom
SELECT department, agreed_on, words
FROM store.agreements
ORDER BY department;
