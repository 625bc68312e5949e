-- The sessions of the view `incoming` with their numbers and their local days. New sessions are
-- numbered from the largest number on, by season, department and start. Their teams are written.
SELECT
    incoming.*,
    coalesce(
        held.session_no,
        (SELECT coalesce(max(sessions.session_no), 0) FROM store.sessions AS sessions)
        + row_number() OVER (
            PARTITION BY held.session_no IS NULL
            ORDER BY incoming.season, teams.department, incoming.starts_at, incoming.session
        )
    ) AS session_no,
    CAST(timezone(departments.time_zone, incoming.starts_at) AS DATE) AS played_on
FROM incoming
JOIN store.teams AS teams ON teams.team = incoming.team
JOIN store.departments AS departments ON departments.department = teams.department
LEFT JOIN store.sessions AS held ON held.session = incoming.session
