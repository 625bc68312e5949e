-- Everything that can be found by a name or key, with the line it is found in, in small plain
-- letters. Guards and roster places of later days are not known yet; sessions are: the schedule is.

CREATE OR REPLACE TEMP TABLE things AS
WITH places AS (
    SELECT athlete_no, name, team, season
    FROM store.roster
    WHERE coalesce(joined_on < $until, true)
),
people AS (
    SELECT
        p.athlete_no, a.athlete,
        max_by(p.name, (p.season, p.team)) AS name,
        string_agg(DISTINCT p.team, ', ' ORDER BY p.team) AS teams
    FROM places AS p
    JOIN store.athletes AS a USING (athlete_no)
    GROUP BY p.athlete_no, a.athlete
),
first_stages AS (
    SELECT guard_no, min(reached_at) AS first_at FROM store.stages GROUP BY guard_no
),
listed AS (
    SELECT
        1 AS place, 'department' AS what, department AS key, name, plan::VARCHAR AS beside,
        NULL::VARCHAR AS athlete
    FROM store.departments
    UNION ALL
    SELECT 2, 'team', t.team, concat(t.sex, ' ', t.sport), d.name, NULL
    FROM store.teams AS t
    JOIN store.departments AS d USING (department)
    UNION ALL
    SELECT 3, 'athlete', athlete, name, teams, athlete
    FROM people
    UNION ALL
    SELECT
        4, 'guard', g.guard, concat_ws(' ', g.kind, nullif(g.side::VARCHAR, 'midline')),
        concat_ws(' · ', p.name, p.teams), p.athlete
    FROM store.guards AS g
    JOIN people AS p USING (athlete_no)
    LEFT JOIN first_stages AS f USING (guard_no)
    LEFT JOIN athlete_zones() AS z USING (athlete_no)
    WHERE coalesce((f.first_at AT TIME ZONE z.time_zone)::DATE < $until, true)
    UNION ALL
    SELECT
        5, 'session', session, concat_ws(' ', setting, label),
        concat_ws(' · ', strftime(played_on, '%Y-%m-%d'), team), NULL
    FROM store.sessions
    UNION ALL
    SELECT 6, 'made of', made_of, made_of, concat(count(*), ' guards'), NULL
    FROM guard_build()
    GROUP BY made_of
)
SELECT *, folded(name) AS plain_name, folded(concat_ws(' ', what, key, name, beside)) AS line
FROM listed;
