-- question: Which load brought each row of these tables?
-- params:
--   tables VARCHAR[]  the tables; never NULL
-- grain: one row per row of the tables
-- columns:
--   table_name  VARCHAR  the table
--   key_1       VARCHAR  first part of its key
--   key_2       VARCHAR  second part; NULL when there is none
--   key_3       VARCHAR  third part, instants in microseconds since 1970; NULL when there is none
--   load_no     INTEGER  the load that brought it; 0 when it came with the program
WITH brought AS (
    SELECT
        'kinds' AS table_name,
        kinds.kind AS key_1,
        CAST(kinds.area AS VARCHAR) AS key_2,
        NULL AS key_3,
        coalesce(kinds.load_no, 0) AS load_no
    FROM store.kinds AS kinds
    WHERE list_contains($tables, 'kinds')
    UNION ALL
    SELECT
        'departments',
        departments.department,
        NULL,
        NULL,
        coalesce(departments.load_no, 0)
    FROM store.departments AS departments
    WHERE list_contains($tables, 'departments')
    UNION ALL
    SELECT
        'teams',
        teams.team,
        NULL,
        NULL,
        coalesce(teams.load_no, 0)
    FROM store.teams AS teams
    WHERE list_contains($tables, 'teams')
    UNION ALL
    SELECT
        'roster',
        athletes.athlete,
        roster.team,
        roster.season,
        coalesce(roster.load_no, 0)
    FROM store.roster AS roster
    JOIN store.athletes AS athletes ON athletes.athlete_no = roster.athlete_no
    WHERE list_contains($tables, 'roster')
    UNION ALL
    SELECT
        'sessions',
        sessions.session,
        NULL,
        NULL,
        coalesce(sessions.load_no, 0)
    FROM store.sessions AS sessions
    WHERE list_contains($tables, 'sessions')
    UNION ALL
    SELECT
        'attendance',
        sessions.session,
        athletes.athlete,
        NULL,
        coalesce(attendance.load_no, 0)
    FROM store.attendance AS attendance
    JOIN store.sessions AS sessions ON sessions.session_no = attendance.session_no
    JOIN store.athletes AS athletes ON athletes.athlete_no = attendance.athlete_no
    WHERE list_contains($tables, 'attendance')
    UNION ALL
    SELECT
        'guards',
        guards.guard,
        NULL,
        NULL,
        coalesce(guards.load_no, 0)
    FROM store.guards AS guards
    WHERE list_contains($tables, 'guards')
    UNION ALL
    SELECT
        'stages',
        guards.guard,
        CAST(stages.stage AS VARCHAR),
        CAST(epoch_us(stages.reached_at) AS VARCHAR),
        coalesce(stages.load_no, 0)
    FROM store.stages AS stages
    JOIN store.guards AS guards ON guards.guard_no = stages.guard_no
    WHERE list_contains($tables, 'stages')
    UNION ALL
    SELECT
        'wear',
        sessions.session,
        guards.guard,
        NULL,
        coalesce(wear.load_no, 0)
    FROM store.wear AS wear
    JOIN store.sessions AS sessions ON sessions.session_no = wear.session_no
    JOIN store.guards AS guards ON guards.guard_no = wear.guard_no
    WHERE list_contains($tables, 'wear')
    UNION ALL
    SELECT
        'injuries',
        injuries.injury,
        NULL,
        NULL,
        coalesce(injuries.load_no, 0)
    FROM store.injuries AS injuries
    WHERE list_contains($tables, 'injuries')
    UNION ALL
    SELECT
        'offers',
        offers.offer,
        NULL,
        NULL,
        coalesce(offers.load_no, 0)
    FROM store.offers AS offers
    WHERE list_contains($tables, 'offers')
    UNION ALL
    SELECT
        'decisions',
        decisions.decision,
        NULL,
        NULL,
        coalesce(decisions.load_no, 0)
    FROM store.decisions AS decisions
    WHERE list_contains($tables, 'decisions')
)

SELECT brought.table_name, brought.key_1, brought.key_2, brought.key_3, brought.load_no
FROM brought
ORDER BY brought.table_name, brought.key_1, brought.key_2, brought.key_3
