-- question: What is the last day on which anything was recorded?
-- params:
-- grain: one row
-- columns:
--   first_day DATE   first session; NULL in an empty store
--   last_day DATE    latest of attendance, stages, injuries, returns, offers, draws and decisions;
--                    before any of them the day of the first session; or NULL
--   sessions BIGINT  sessions with attendance
--   guards BIGINT    guards
-- Each table is a row of its own: planned so, it takes a fifth of the time of eight subqueries.
WITH recorded AS (
    SELECT max(played_on) AS day, count(*) AS sessions
    FROM store.sessions
    SEMI JOIN store.attendance USING (session_no)
    UNION ALL
    SELECT max((q.reached_at AT TIME ZONE z.time_zone)::DATE), 0
    FROM store.stages AS q
    JOIN store.guards AS g USING (guard_no)
    JOIN athlete_zones() AS z USING (athlete_no)
    UNION ALL
    SELECT max(greatest(occurred_on, reported_on, returned_on)), 0 FROM store.injuries
    UNION ALL
    SELECT max(offered_on), 0 FROM store.offers
    UNION ALL
    SELECT max(greatest(drawn_on, jumped_on)), 0 FROM store.turns
    UNION ALL
    SELECT max(greatest(decided_on, done_on)), 0 FROM store.decisions
    UNION ALL
    SELECT max(done_on), 0 FROM store.marked_guards
),
latest AS (
    SELECT max(day) AS day, sum(sessions)::BIGINT AS sessions FROM recorded
)
SELECT
    s.first_day,
    coalesce(r.day, s.first_day) AS last_day,
    r.sessions,
    g.guards
FROM latest AS r
CROSS JOIN (SELECT min(played_on) AS first_day FROM store.sessions) AS s
CROSS JOIN (SELECT count(*) AS guards FROM store.guards) AS g;
