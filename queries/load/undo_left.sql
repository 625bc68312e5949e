-- Rows of other loads that point to rows the load $load_no brought: the table, how many there are,
-- and what they point to.
WITH lost_athletes AS (
    SELECT roster.athlete_no
    FROM store.roster AS roster
    GROUP BY roster.athlete_no
    HAVING bool_and(roster.load_no = $load_no)
),

lost_sessions AS (
    SELECT sessions.session_no, sessions.session
    FROM store.sessions AS sessions
    WHERE sessions.load_no = $load_no
),

lost_guards AS (
    SELECT guards.guard_no, guards.guard FROM store.guards AS guards WHERE guards.load_no = $load_no
),

lost_kinds AS (
    SELECT kinds.kind FROM store.kinds AS kinds GROUP BY kinds.kind
    HAVING bool_and(kinds.load_no = $load_no)
),

pointing AS (
    SELECT 'attendance' AS table_name, 'sessions' AS points_to
    FROM store.attendance AS a
    JOIN lost_sessions AS lost ON lost.session_no = a.session_no
    WHERE a.load_no != $load_no
    UNION ALL
    SELECT 'wear', 'sessions'
    FROM store.wear AS w
    JOIN lost_sessions AS lost ON lost.session_no = w.session_no
    WHERE w.load_no != $load_no
    UNION ALL
    SELECT 'injuries', 'sessions'
    FROM store.injuries AS i
    JOIN lost_sessions AS lost ON lost.session_no = i.session_no
    WHERE i.load_no != $load_no
    UNION ALL
    SELECT 'attendance', 'roster'
    FROM store.attendance AS a
    JOIN lost_athletes AS lost ON lost.athlete_no = a.athlete_no
    WHERE a.load_no != $load_no
    UNION ALL
    SELECT 'guards', 'roster'
    FROM store.guards AS g
    JOIN lost_athletes AS lost ON lost.athlete_no = g.athlete_no
    WHERE g.load_no != $load_no
    UNION ALL
    SELECT 'injuries', 'roster'
    FROM store.injuries AS i
    JOIN lost_athletes AS lost ON lost.athlete_no = i.athlete_no
    WHERE i.load_no != $load_no
    UNION ALL
    SELECT 'offers', 'roster'
    FROM store.offers AS o
    JOIN lost_athletes AS lost ON lost.athlete_no = o.athlete_no
    WHERE o.load_no != $load_no
    UNION ALL
    SELECT 'stages', 'guards'
    FROM store.stages AS s
    JOIN lost_guards AS lost ON lost.guard_no = s.guard_no
    WHERE s.load_no != $load_no
    UNION ALL
    SELECT 'wear', 'guards'
    FROM store.wear AS w
    JOIN lost_guards AS lost ON lost.guard_no = w.guard_no
    WHERE w.load_no != $load_no
    UNION ALL
    SELECT 'guards', 'guards'
    FROM store.guards AS g
    JOIN lost_guards AS lost ON lost.guard = g.remake_of
    WHERE g.load_no != $load_no
    UNION ALL
    SELECT 'guards', 'kinds'
    FROM store.guards AS g
    JOIN lost_kinds AS lost ON lost.kind = g.kind
    WHERE g.load_no != $load_no
    UNION ALL
    SELECT 'offers', 'kinds'
    FROM store.offers AS o
    JOIN lost_kinds AS lost ON lost.kind = o.kind
    WHERE o.load_no != $load_no
    UNION ALL
    SELECT 'roster', 'teams'
    FROM store.roster AS r
    JOIN store.teams AS t ON t.team = r.team
    WHERE t.load_no = $load_no AND r.load_no != $load_no
    UNION ALL
    SELECT 'sessions', 'teams'
    FROM store.sessions AS s
    JOIN store.teams AS t ON t.team = s.team
    WHERE t.load_no = $load_no AND s.load_no != $load_no
    UNION ALL
    SELECT 'teams', 'departments'
    FROM store.teams AS t
    JOIN store.departments AS d ON d.department = t.department
    WHERE d.load_no = $load_no AND t.load_no != $load_no
    UNION ALL
    SELECT 'decisions', 'departments'
    FROM store.decisions AS c
    JOIN store.departments AS d ON d.department = c.department
    WHERE d.load_no = $load_no AND c.load_no != $load_no
)

SELECT pointing.table_name, pointing.points_to, count(*) AS n
FROM pointing
GROUP BY pointing.table_name, pointing.points_to
ORDER BY pointing.table_name, pointing.points_to
