-- question: Which teams are in the scope, and when do they play next?
-- scope: teams
-- grain: one row per team and season with a session or a roster place
-- columns:
--   team VARCHAR             key
--   season VARCHAR           as in sessions
--   department VARCHAR       key
--   department_name VARCHAR  its name
--   time_zone VARCHAR        of the department
--   first_on DATE            day of the season's first session; NULL: it has none
--   last_on DATE             day of its last session; NULL: it has none
--   held BIGINT              its sessions by the last day known
--   next_session VARCHAR     the team's next game, if of this season; NULL: none (so too below)
--   next_at TIMESTAMPTZ      its start
--   next_on DATE             its day in the department's time zone
--   next_label VARCHAR       its label; NULL also when it has none
WITH calendar AS (
    SELECT
        team, season,
        min(played_on) AS first_on,
        max(played_on) AS last_on,
        count(*) FILTER (played_on < $until) AS held
    FROM store.sessions
    GROUP BY team, season
),
seasons AS (
    SELECT team, season FROM calendar
    UNION
    SELECT team, season FROM store.roster
)
SELECT
    c.team, c.season, t.department,
    d.name AS department_name,
    d.time_zone, k.first_on, k.last_on,
    coalesce(k.held, 0) AS held,
    n.session AS next_session,
    n.starts_at AS next_at,
    n.played_on AS next_on,
    n.label AS next_label
FROM seasons AS c
JOIN asked_teams($departments, $teams, $sports, $sexes) AS t USING (team)
JOIN store.departments AS d USING (department)
LEFT JOIN calendar AS k USING (team, season)
LEFT JOIN (
    SELECT g.*, s.season
    FROM next_games($until, $departments, $teams, $sports, $sexes) AS g
    JOIN store.sessions AS s USING (session_no)
) AS n USING (team, season)
WHERE is_asked($seasons, c.season)
ORDER BY n.starts_at NULLS LAST, c.team, c.season;
