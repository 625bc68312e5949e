-- question: What was recorded of one athlete, day by day?
-- scope: teams, kinds, made
-- params:
--   athlete VARCHAR        key
-- grain: one row per event: a session while on the roster, or anything with a day of its own
-- columns:
--   happened_on DATE         day, where the athlete is
--   happened_at TIMESTAMPTZ  instant; NULL: only the day is recorded
--   time_zone VARCHAR        of the department
--   what VARCHAR             joined, session, stage, offer, injury, return or left
--   item VARCHAR             key of the session, guard, offer or injury, or of the team
--   word VARCHAR             part (or not recorded), stage, answer, body area, or season
--   reason VARCHAR           recorded with it; NULL: none
--   kind VARCHAR             game or practice, guard kind, or history of the injury; NULL: none
--   side VARCHAR             of the guard or the injury; NULL: none
--   label VARCHAR            of the session, or note of the stage; NULL: none
--   guards VARCHAR[]         guards of the scope worn in the session; empty: none
--   days_lost BIGINT         of an injury, so far while it is open; NULL: no injury
WITH person AS (SELECT athlete_no FROM store.athletes WHERE athlete = $athlete),
places AS (
    SELECT r.team, r.season, r.joined_on, r.left_on, d.time_zone, d.department
    FROM asked_places($seasons, $departments, $teams, $sports, $sexes, NULL) AS r
    SEMI JOIN person USING (athlete_no)
    JOIN store.departments AS d USING (department)
),
home AS (SELECT min_by(time_zone, department) AS time_zone FROM places),
guards AS (
    SELECT g.guard_no, g.guard, g.kind, g.side
    FROM store.guards AS g
    SEMI JOIN person USING (athlete_no)
    WHERE g.kind IN (FROM asked_kinds($kinds, $areas))
      AND is_asked_side($sides, g.side)
      AND is_made_of($made_of, g.guard_no)
),
worn AS (
    SELECT w.session_no, list(g.guard ORDER BY g.guard) AS guards
    FROM worn_guards() AS w
    JOIN guards AS g USING (guard_no)
    GROUP BY w.session_no
),
injuries AS (
    SELECT *
    FROM store.injuries
    SEMI JOIN person USING (athlete_no)
    WHERE coalesce(reported_on, occurred_on) < $until AND occurred_on < $until
),
events AS (
    SELECT
        2 AS place, s.played_on AS happened_on, s.starts_at AS happened_at, p.time_zone,
        'session' AS what, s.session AS item,
        coalesce(a.part::VARCHAR, 'not recorded') AS word,
        a.reason::VARCHAR AS reason, s.setting::VARCHAR AS kind, NULL AS side, s.label,
        coalesce(w.guards, []) AS guards, NULL::BIGINT AS days_lost
    FROM places AS p
    JOIN store.sessions AS s USING (team, season)
    LEFT JOIN (SELECT * FROM store.attendance SEMI JOIN person USING (athlete_no)) AS a
        ON a.session_no = s.session_no
    LEFT JOIN worn AS w ON w.session_no = s.session_no
    WHERE s.played_on < $until
      AND (
          a.part IS NOT NULL
          OR is_listed(p.joined_on, p.left_on, s.played_on)
      )
    UNION ALL
    SELECT
        2, (q.reached_at AT TIME ZONE h.time_zone)::DATE,
        CASE WHEN q.timed = 'no' THEN NULL ELSE q.reached_at END, h.time_zone,
        'stage', g.guard, q.stage::VARCHAR, NULL, g.kind, g.side::VARCHAR, q.note, [], NULL
    FROM guards AS g
    JOIN store.stages AS q USING (guard_no)
    CROSS JOIN home AS h
    WHERE (q.reached_at AT TIME ZONE h.time_zone)::DATE < $until
    UNION ALL
    SELECT
        3, i.occurred_on, NULL, h.time_zone, 'injury', i.injury, i.area::VARCHAR,
        i.mechanism::VARCHAR, i.history::VARCHAR, i.side::VARCHAR, NULL, [],
        days_lost(i.occurred_on, i.returned_on, $until)
    FROM injuries AS i
    CROSS JOIN home AS h
    UNION ALL
    SELECT
        1, i.returned_on, NULL, h.time_zone, 'return', i.injury, i.area::VARCHAR,
        NULL, NULL, i.side::VARCHAR, NULL, [], days_lost(i.occurred_on, i.returned_on, $until)
    FROM injuries AS i
    CROSS JOIN home AS h
    WHERE i.returned_on < $until
    UNION ALL
    SELECT
        3, o.offered_on, NULL, h.time_zone, 'offer', o.offer, o.answer::VARCHAR, o.reason,
        o.kind, NULL, NULL, [], NULL
    FROM store.offers AS o
    SEMI JOIN person USING (athlete_no)
    CROSS JOIN home AS h
    WHERE o.offered_on < $until AND list_contains($kinds, o.kind)
    UNION ALL
    SELECT
        0, joined_on, NULL, time_zone, 'joined', team, season, NULL, NULL, NULL, NULL, [], NULL
    FROM places
    WHERE joined_on < $until
    UNION ALL
    SELECT 4, left_on, NULL, time_zone, 'left', team, season, NULL, NULL, NULL, NULL, [], NULL
    FROM places
    WHERE left_on < $until
)
SELECT
    happened_on, happened_at, time_zone, what, item, word, reason, kind, side, label, guards,
    days_lost
FROM events
ORDER BY happened_on, place, happened_at, what, item, word;
