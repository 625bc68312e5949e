-- question: Who wore two guards at one site in one session?
-- touches: compare (set aside), take-up (worn share), remakes (sessions worn)
-- why: The site counts as guarded once, or is set aside where one was made for return; both
--   guards count the session as worn.
-- mend: Name the one that was worn.
-- works on: checks
-- scope: checks
-- grain: one row per session, athlete and site under more than one guard
-- columns: doubts
WITH covered AS MATERIALIZED (
    SELECT DISTINCT g.guard_no, g.guard, g.athlete_no, x.area, x.side
    FROM store.guards AS g
    JOIN store.kinds AS k USING (kind)
    JOIN scope_sites((SELECT list(DISTINCT kind) FROM store.kinds), NULL, NULL) AS x
        ON x.area = k.area::VARCHAR AND covers(g.side, x.side)
),
by_several AS (
    SELECT athlete_no, area, side
    FROM covered
    GROUP BY athlete_no, area, side
    HAVING count(*) > 1
),
crowded AS (
    SELECT
        w.session_no, c.area, c.side,
        min(w.guard_no) AS guard_no,
        string_agg(c.guard, ', ' ORDER BY c.guard) AS guards
    FROM checked_wear AS w
    JOIN covered AS c USING (guard_no)
    JOIN by_several AS b
        ON b.athlete_no = c.athlete_no AND b.area = c.area AND b.side = c.side
    GROUP BY w.session_no, c.athlete_no, c.area, c.side
    HAVING count(*) > 1
)
SELECT
    w.department, w.team, w.athlete, w.name, w.played_on AS dated_on, 'wear' AS table_name,
    w.guard AS key,
    c.area || ', ' || c.side || ' in session ' || w.session || ': ' || c.guards AS detail
FROM crowded AS c
JOIN checked_wear AS w USING (session_no, guard_no)
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
