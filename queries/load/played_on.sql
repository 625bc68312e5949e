-- Sets the local day of every session whose department or time zone has changed since it was
-- written.
UPDATE store.sessions AS sessions
SET played_on = CAST(timezone(departments.time_zone, sessions.starts_at) AS DATE)
FROM store.teams AS teams
JOIN store.departments AS departments ON departments.department = teams.department
WHERE
    teams.team = sessions.team
    AND sessions.played_on != CAST(timezone(departments.time_zone, sessions.starts_at) AS DATE)
