-- question: Which guards have no stage, so that nobody knows when they were asked for or came?
-- touches: orders (open orders), turnaround (orders), take-up (fitted)
-- why: A guard without a stage is no order: it is in no turnaround, on no list of what is
--   late.
-- mend: Add at least when it was requested and when it was fitted.
-- works on: checks
-- scope: checks
-- grain: one row per guard
-- columns: doubts
SELECT
    department, team, athlete, name, known_on AS dated_on, 'stages' AS table_name,
    guard AS key,
    kind || ', ' || side || ': no stage, '
        || coalesce('but first worn on ' || known_on, 'and never worn') AS detail
FROM checked_guards
WHERE NOT is_staged
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
