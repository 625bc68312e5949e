-- question: Who wears each guard, what was it made of, and is it to be looked at?
-- works on: orders
-- scope: guards
-- grain: one row per guard of the scope, by athlete
-- columns:
--   guard VARCHAR             key
--   athlete VARCHAR           key
--   name VARCHAR              of the athlete, as in roster
--   team VARCHAR              key
--   department VARCHAR        key
--   kind VARCHAR              guard kind
--   side VARCHAR              left, right, both or midline
--   purpose VARCHAR           preventive or return
--   state VARCHAR             in use, on its way, replaced, retired, cancelled or not recorded
--   fitted_on DATE            local day; NULL: it is not
--   sessions_worn BIGINT      sessions worn in so far
--   last_worn_on DATE         NULL: never, by the record
--   next_game_on DATE         of its team; NULL: none is listed
--   material VARCHAR          NULL: not recorded (so too below)
--   lot VARCHAR               lot or spool
--   profile VARCHAR           print settings
--   printer VARCHAR           printer
--   model_version VARCHAR     version of the model
--   decision VARCHAR          key of the decision that marks it, still to be done first; NULL: none
--   to_do VARCHAR             inspect or replace
--   due_on DATE               day set for that
--   done_on DATE              day it was done; NULL: still to be done
--   worn_since BIGINT         sessions worn since it was fitted or last inspected by a decision
--   weeks_since DOUBLE        weeks since then; NULL: it is not fitted
--   look_after_sessions INTEGER  the department's rule; NULL: none
--   look_after_weeks INTEGER  the department's rule; NULL: none
WITH marks AS (SELECT * FROM marks_known($until)),
looked_at AS (
    SELECT guard_no, max(done_on) AS looked_on FROM marks WHERE to_do = 'inspect' GROUP BY guard_no
),
latest AS (
    SELECT *
    FROM marks
    QUALIFY row_number() OVER (
        PARTITION BY guard_no ORDER BY done_on IS NOT NULL, decided_on DESC, decision DESC
    ) = 1
),
timed AS (
    SELECT
        g.*,
        o.guard_no IS NOT NULL AS is_staged,
        o.state AS order_state, o.retired_at, o.cancelled_at,
        (o.fitted_at AT TIME ZONE g.time_zone)::DATE AS fitted_on,
        s.successor_fitted_on,
        greatest((o.fitted_at AT TIME ZONE g.time_zone)::DATE, l.looked_on) AS since_on
    FROM scoped_guards AS g
    LEFT JOIN scoped_orders AS o USING (guard_no)
    LEFT JOIN successors($until) AS s USING (guard_no)
    LEFT JOIN looked_at AS l USING (guard_no)
    WHERE o.guard_no IS NOT NULL OR g.first_at IS NOT NULL
       OR g.guard_no NOT IN (SELECT guard_no FROM store.stages)
),
worn AS (
    SELECT
        t.guard_no, count(*) AS sessions, max(p.played_on) AS last_on,
        count(*) FILTER (coalesce(p.played_on >= t.since_on, true)) AS since
    FROM timed AS t
    JOIN worn_guards() AS w USING (guard_no)
    JOIN store.sessions AS p USING (session_no)
    WHERE p.played_on < $until
    GROUP BY t.guard_no
)
SELECT
    t.guard, t.athlete, t.name, t.team, t.department, t.kind, t.side, t.purpose,
    CASE
        WHEN t.retired_at IS NOT NULL THEN 'retired'
        WHEN t.successor_fitted_on IS NOT NULL THEN 'replaced'
        WHEN t.order_state = 'fitted' THEN 'in use'
        WHEN t.order_state = 'open' THEN 'on its way'
        WHEN t.cancelled_at IS NOT NULL THEN 'cancelled'
        WHEN w.guard_no IS NOT NULL THEN 'in use'
        ELSE 'not recorded'
    END AS state,
    t.fitted_on,
    coalesce(w.sessions, 0) AS sessions_worn,
    w.last_on AS last_worn_on,
    n.played_on AS next_game_on,
    b.material, b.lot, b.profile, b.printer, b.model_version,
    m.decision, m.to_do::VARCHAR AS to_do, m.due_on, m.done_on,
    coalesce(w.since, 0) AS worn_since,
    ($until::DATE - 1 - t.since_on) / 7.0 AS weeks_since,
    d.look_after_sessions, d.look_after_weeks
FROM timed AS t
JOIN store.guards AS b USING (guard_no)
JOIN store.departments AS d ON d.department = t.department
LEFT JOIN worn AS w USING (guard_no)
LEFT JOIN latest AS m USING (guard_no)
LEFT JOIN next_games($until, NULL, NULL, NULL, NULL) AS n ON n.team = t.team
ORDER BY t.name, t.guard;
