-- question: Who was in one session, in what guard, and who was hurt?
-- params:
--   session VARCHAR  key
--   until DATE       first day not yet known (the day after "through")
-- grain: one row per athlete with anything recorded of the session, or on the team's roster then;
--   none before the session was held
-- columns:
--   athlete VARCHAR  key
--   name VARCHAR     as in roster; the key where not on that roster
--   part VARCHAR     full, limited, out, or not recorded
--   reason VARCHAR   recorded with it; NULL: none
--   minutes DOUBLE   played; NULL: not recorded
--   guards VARCHAR   kinds and sides of the guards worn; or that it is not known; NULL: none
--   hurt VARCHAR     body areas and sides hurt in it; NULL: none
WITH here AS (
    SELECT session_no, team, season, played_on
    FROM store.sessions
    WHERE session = $session AND played_on < $until
),
on_roster AS (
    SELECT r.athlete_no, r.name, r.joined_on, r.left_on
    FROM store.roster AS r
    JOIN here USING (team, season)
),
attended AS (
    SELECT a.* FROM store.attendance AS a SEMI JOIN here USING (session_no)
),
worn AS (
    SELECT
        g.athlete_no,
        string_agg(concat_ws(' ', g.kind, nullif(g.side::VARCHAR, 'midline')), ', ' ORDER BY g.guard)
            AS guards
    FROM worn_guards() AS w
    SEMI JOIN here USING (session_no)
    JOIN store.guards AS g USING (guard_no)
    GROUP BY g.athlete_no
),
unknown AS (SELECT DISTINCT athlete_no FROM wear_not_known() SEMI JOIN here USING (session_no)),
hurt AS (
    SELECT
        i.athlete_no,
        string_agg(
            concat_ws(' ', nullif(i.side::VARCHAR, 'midline'), i.area), ', ' ORDER BY i.injury
        ) AS hurt
    FROM store.injuries AS i
    SEMI JOIN here USING (session_no)
    WHERE coalesce(i.reported_on, i.occurred_on) < $until
    GROUP BY i.athlete_no
),
people AS (
    SELECT athlete_no FROM attended
    UNION
    SELECT athlete_no FROM worn
    UNION
    SELECT athlete_no FROM hurt
    UNION
    SELECT r.athlete_no
    FROM on_roster AS r
    CROSS JOIN here AS h
    WHERE is_listed(r.joined_on, r.left_on, h.played_on)
)
SELECT
    a.athlete,
    coalesce(r.name, a.athlete) AS name,
    coalesce(t.part::VARCHAR, 'not recorded') AS part,
    t.reason::VARCHAR AS reason,
    t.minutes,
    coalesce(w.guards, CASE WHEN u.athlete_no IS NOT NULL THEN 'not known' END) AS guards,
    h.hurt
FROM people AS p
JOIN store.athletes AS a USING (athlete_no)
LEFT JOIN on_roster AS r USING (athlete_no)
LEFT JOIN attended AS t USING (athlete_no)
LEFT JOIN worn AS w USING (athlete_no)
LEFT JOIN unknown AS u USING (athlete_no)
LEFT JOIN hurt AS h USING (athlete_no)
ORDER BY name, athlete;
