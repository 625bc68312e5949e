-- question: Which orders are known, what became of them, was their guard remade, which game is next?
-- works on: orders
-- scope: guards
-- grain: one row per order (a guard of which a stage is known)
-- columns:
--   guard VARCHAR                key
--   athlete VARCHAR              key
--   name VARCHAR                 of the athlete, as in roster
--   team VARCHAR                 key
--   department VARCHAR           key
--   department_name VARCHAR      its name
--   plan VARCHAR                 onsite printer or weekly allotment
--   time_zone VARCHAR            of the department
--   kind VARCHAR                 guard kind
--   side VARCHAR                 left, right, both or midline
--   purpose VARCHAR              preventive or return
--   scan_method VARCHAR          scanner or phone; NULL: not recorded
--   printer VARCHAR              NULL: not recorded
--   remake_of VARCHAR            guard that it replaces; NULL: none
--   promised_on DATE             day it was promised for; NULL: none
--   remake_reason VARCHAR        why it replaces it; NULL: not recorded
--   made_as VARCHAR              remake, replacement, or reason not recorded; NULL: for no guard of the athlete
--   requested_at TIMESTAMPTZ     first stamp of the stage; NULL: not reached (so too below)
--   scanned_at TIMESTAMPTZ       first stamp
--   modelled_at TIMESTAMPTZ      first stamp
--   printed_at TIMESTAMPTZ       first stamp
--   finished_at TIMESTAMPTZ      first stamp
--   shipped_at TIMESTAMPTZ       first stamp
--   delivered_at TIMESTAMPTZ     first stamp
--   fitted_at TIMESTAMPTZ        first stamp
--   retired_at TIMESTAMPTZ       first stamp
--   cancelled_at TIMESTAMPTZ     first stamp
--   first_stage_at TIMESTAMPTZ   its earliest stamp of all
--   over_at TIMESTAMPTZ          when it stopped being open
--   stage VARCHAR                the stage reached last, by its place in the row of stages
--   state VARCHAR                open, fitted, cancelled or retired
--   is_by_day BOOLEAN            of a stage of it the day alone is known; it stands at noon
--   as_of TIMESTAMPTZ            end of the last day known, in the department
--   first_game_at TIMESTAMPTZ    the team's first game of that season after the request
--   next_session VARCHAR         the team's next game from the last day on; or NULL
--   next_game_at TIMESTAMPTZ     its start
--   next_game_on DATE            its day in the department
--   next_game_label VARCHAR      its label; NULL: none recorded
--   worn BIGINT                  sessions since the request with this very guard worn; NULL unless open
--   successor VARCHAR            guard asked for in its place; NULL: none
--   successor_counts_as VARCHAR  remake, replacement, or reason not recorded
--   successor_reason VARCHAR     why; NULL: not recorded
--   successor_asked_on DATE      day on which it was asked for, in the athlete's department
WITH orders AS (SELECT * FROM scoped_orders),
worn AS (
    SELECT o.guard_no, count(*) AS sessions
    FROM orders AS o
    JOIN worn_guards() AS w USING (guard_no)
    JOIN store.sessions AS s USING (session_no)
    JOIN store.attendance AS a ON a.session_no = s.session_no AND a.athlete_no = o.athlete_no
    WHERE o.state = 'open' AND a.part <> 'out' AND s.played_on < $until
      AND s.starts_at > coalesce(o.requested_at, o.first_stage_at)
    GROUP BY o.guard_no
)
SELECT
    o.guard, o.athlete, o.name, o.team, o.department,
    d.name AS department_name,
    o.plan, o.time_zone, o.kind, o.side, o.purpose, o.scan_method, o.printer, o.remake_of,
    o.promised_on, o.remake_reason,
    CASE WHEN b.guard IS NOT NULL THEN remake_or_replacement(o.remake_reason) END AS made_as,
    o.requested_at, o.scanned_at, o.modelled_at, o.printed_at, o.finished_at, o.shipped_at,
    o.delivered_at, o.fitted_at, o.retired_at, o.cancelled_at, o.first_stage_at, o.over_at,
    o.stage, o.state, o.is_by_day, o.as_of, f.first_game_at,
    n.session AS next_session,
    n.starts_at AS next_game_at,
    n.played_on AS next_game_on,
    n.label AS next_game_label,
    CASE WHEN o.state = 'open' THEN coalesce(w.sessions, 0) END AS worn,
    r.successor, r.counts_as AS successor_counts_as,
    r.reason AS successor_reason,
    r.successor_asked_on
FROM orders AS o
JOIN store.departments AS d USING (department)
LEFT JOIN first_games() AS f USING (guard_no)
LEFT JOIN worn AS w USING (guard_no)
LEFT JOIN next_games($until, $departments, $teams, $sports, $sexes) AS n USING (team)
LEFT JOIN successors($until) AS r USING (guard_no)
LEFT JOIN store.guards AS b
    ON b.guard = o.remake_of AND b.athlete_no = o.athlete_no AND b.guard <> o.guard
ORDER BY o.guard;
