-- question: What is the last day on which anything was recorded?
-- params:
-- grain: one row
-- columns:
--   first_day DATE   first session; NULL in an empty store
--   last_day DATE    latest of attendance, stages, injuries, returns, offers and draws; before any
--                    of them the day of the first session; or NULL
--   sessions BIGINT  sessions with attendance
--   guards BIGINT    guards
SELECT
    (SELECT min(played_on) FROM store.sessions) AS first_day,
    coalesce(greatest(
        (SELECT max(s.played_on)
         FROM store.sessions AS s
         SEMI JOIN store.attendance AS a USING (session_no)),
        (SELECT max((q.reached_at AT TIME ZONE z.time_zone)::DATE)
         FROM store.stages AS q
         JOIN store.guards AS g USING (guard_no)
         JOIN athlete_zones() AS z USING (athlete_no)),
        (SELECT max(greatest(occurred_on, reported_on, returned_on)) FROM store.injuries),
        (SELECT max(offered_on) FROM store.offers),
        (SELECT max(greatest(drawn_on, jumped_on)) FROM store.turns)
    ), (SELECT min(played_on) FROM store.sessions)) AS last_day,
    (SELECT count(*) FROM store.sessions SEMI JOIN store.attendance USING (session_no))
        AS sessions,
    (SELECT count(*) FROM store.guards) AS guards;
