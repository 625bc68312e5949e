-- question: Which orders look like a second record of one order?
-- touches: orders (open orders), turnaround (orders), departments (prints used)
-- why: One of them never ends: it grows late and keeps a print that nobody needs.
-- mend: Cancel one, or name what it replaces.
-- works on: checks
-- scope: checks
-- grain: one row per guard asked for within seven days of another like it, which it does not
--   replace
-- columns: doubts
SELECT
    g.department, g.team, g.athlete, g.name, g.known_on AS dated_on, 'guards' AS table_name,
    g.guard AS key,
    g.kind || ', ' || g.side || ': asked for within seven days of '
        || string_agg(o.guard, ', ' ORDER BY o.requested_at, o.guard) AS detail
FROM checked_guards AS g
JOIN checked_guards AS o
    ON o.athlete_no = g.athlete_no
    AND o.kind = g.kind
    AND o.side = g.side
    AND o.purpose = g.purpose
    AND (o.requested_at, o.guard) < (g.requested_at, g.guard)
    AND g.requested_at - o.requested_at <= INTERVAL 7 DAY
    AND coalesce(o.over_at > g.requested_at, true)
WHERE g.remake_of IS NULL
GROUP BY g.department, g.team, g.athlete, g.name, g.known_on, g.guard, g.kind, g.side
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
