-- question: Which guards were asked for before the day on which the guard they replace was fitted?
-- touches: remakes (remakes and chains)
-- why: It is in no share of guards that came back: what is not fitted yet cannot come back.
-- mend: Correct the day of one of the two stages, or say that it replaces nothing.
-- works on: checks
-- scope: checks
-- grain: one row per guard asked for before the one it replaces was fitted
-- columns: doubts
WITH days AS (
    SELECT
        guard_no,
        min(reached_on) AS asked_on,
        min(reached_on) FILTER (stage = 'fitted') AS fitted_on
    FROM checked_stages
    GROUP BY guard_no
)
SELECT
    g.department, g.team, g.athlete, g.name, a.asked_on AS dated_on, 'guards' AS table_name,
    g.guard AS key,
    'in place of ' || g.remake_of || ', which was fitted only on '
        || strftime(b.fitted_on, '%Y-%m-%d') AS detail
FROM checked_guards AS g
JOIN days AS a USING (guard_no)
JOIN store.guards AS o ON o.guard = g.remake_of AND o.athlete_no = g.athlete_no
JOIN days AS b ON b.guard_no = o.guard_no
WHERE a.asked_on < b.fitted_on
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
