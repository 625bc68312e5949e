-- question: Which guards have no stage, so that nobody knows when they were asked for or came?
-- works on: checks
-- scope: checks
-- grain: one row per guard
-- columns: doubts
SELECT
    g.department,
    g.team,
    g.athlete,
    g.name,
    g.known_on AS dated_on,
    'stages' AS table_name,
    g.guard AS key,
    g.kind || ', ' || g.side || CASE
        WHEN g.known_on IS NULL THEN ': no stage, and never worn'
        ELSE ': no stage, but first worn on ' || g.known_on
    END AS detail
FROM checked_guards AS g
WHERE NOT g.is_staged
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
