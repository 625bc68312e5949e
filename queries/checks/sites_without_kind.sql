-- question: Which injuries are to a body area that no guard kind covers?
-- touches: take-up (athletes who could have a guard)
-- why: They count in availability, and in no comparison of guards: no guard was made for
--   there. Unspecified and multiple areas are here too.
-- mend: Name the area that was hurt; or add the kind, if guards for it are made.
-- works on: checks
-- scope: checks
-- grain: one row per injury
-- columns: doubts
SELECT
    department, team, athlete, name, occurred_on AS dated_on, 'injuries' AS table_name,
    injury AS key,
    site || ': no guard kind covers it' AS detail
FROM checked_injuries
WHERE area NOT IN (SELECT area::VARCHAR FROM store.kinds)
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
