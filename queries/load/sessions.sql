-- Writes the sessions of the view `incoming`; $load_no is the load. Their teams are written.
-- New sessions are numbered from the largest number on, by season, department and start. A session
-- already there keeps its number and its load and takes the new cells.
INSERT INTO store.sessions (
    session_no, session, team, season, starts_at, played_on, setting, season_part, label, load_no
)
SELECT
    coalesce(
        held.session_no,
        (SELECT coalesce(max(sessions.session_no), 0) FROM store.sessions AS sessions)
        + row_number() OVER (
            PARTITION BY held.session_no IS NULL
            ORDER BY incoming.season, teams.department, incoming.starts_at, incoming.session
        )
    ) AS session_no,
    incoming.session,
    incoming.team,
    incoming.season,
    incoming.starts_at,
    CAST(timezone(departments.time_zone, incoming.starts_at) AS DATE) AS played_on,
    incoming.setting,
    incoming.season_part,
    incoming.label,
    $load_no
FROM incoming
JOIN store.teams AS teams ON teams.team = incoming.team
JOIN store.departments AS departments ON departments.department = teams.department
LEFT JOIN store.sessions AS held ON held.session = incoming.session
ON CONFLICT (session_no) DO UPDATE SET
    team = excluded.team,
    season = excluded.season,
    starts_at = excluded.starts_at,
    played_on = excluded.played_on,
    setting = excluded.setting,
    season_part = excluded.season_part,
    label = excluded.label
