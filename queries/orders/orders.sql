-- question: Which orders are known, what became of them, and which games did they wait for?
-- works on: orders
-- scope: guards
-- grain: one row per order (a guard of which a stage is known)
-- columns:
--   guard VARCHAR               key
--   athlete VARCHAR             key
--   name VARCHAR                of the athlete, as in roster
--   team VARCHAR                key
--   season VARCHAR              the season it was made for
--   department VARCHAR          key
--   department_name VARCHAR     its name
--   plan VARCHAR                onsite printer or weekly allotment
--   time_zone VARCHAR           of the department
--   kind VARCHAR                guard kind
--   side VARCHAR                left, right, both or midline
--   purpose VARCHAR             preventive or return
--   scan_method VARCHAR         scanner or phone; NULL: not recorded
--   printer VARCHAR             NULL: not recorded
--   remake_of VARCHAR           guard that it replaces; NULL: none
--   promised_on DATE            day it was promised for; NULL: none
--   requested_at TIMESTAMPTZ    first stamp; NULL: not reached (as below)
--   scanned_at TIMESTAMPTZ      first stamp
--   modelled_at TIMESTAMPTZ     first stamp
--   printed_at TIMESTAMPTZ      first stamp
--   finished_at TIMESTAMPTZ     first stamp
--   shipped_at TIMESTAMPTZ      first stamp
--   delivered_at TIMESTAMPTZ    first stamp
--   fitted_at TIMESTAMPTZ       first stamp
--   retired_at TIMESTAMPTZ      first stamp
--   cancelled_at TIMESTAMPTZ    first stamp
--   first_stage_at TIMESTAMPTZ  its earliest stamp of all
--   stage VARCHAR               reached last, by its place in the row of stages
--   state VARCHAR               open, fitted, cancelled or retired
--   is_by_day BOOLEAN           of a stage of it the day alone is known; it stands at noon
--   as_of TIMESTAMPTZ           end of the last day known, in the department
--   stamped_twice BIGINT        stages with a second, later stamp, which is not used
--   first_game_at TIMESTAMPTZ   the team's first game of that season after the request
--   next_session VARCHAR        the team's next game from the last day on; or NULL
--   next_game_at TIMESTAMPTZ    its start
--   next_game_on DATE           its day in the department
--   next_game_label VARCHAR     its label; NULL: none recorded
--   rule VARCHAR                in games: allowed, with covering, not allowed or not checked
--   exposures BIGINT            sessions taken part in since; NULL unless open
--   bare BIGINT                 those with a site of it known to be under no guard of any kind
--   worn BIGINT                 those in which this very guard was worn
WITH orders AS (SELECT * FROM scoped_orders),
-- Stages with a second, later stamp.
twice AS (
    SELECT guard_no, count(*) AS stages
    FROM (
        SELECT s.guard_no, s.stage
        FROM store.stages AS s
        JOIN orders AS o USING (guard_no)
        WHERE s.reached_at < o.as_of
        GROUP BY s.guard_no, s.stage
        HAVING count(*) > 1
    )
    GROUP BY guard_no
),
-- How often a site that an open order will cover was bare meanwhile.
sites AS (
    SELECT DISTINCT o.guard_no, k.area::VARCHAR AS area, u.side
    FROM orders AS o
    JOIN store.kinds AS k USING (kind)
    CROSS JOIN unnest(sides_of(k.area, o.side)) AS u(side)
    WHERE o.state = 'open'
),
exposures AS (
    SELECT o.guard_no, o.athlete_no, s.session_no
    FROM orders AS o
    JOIN store.attendance AS a USING (athlete_no)
    JOIN store.sessions AS s USING (session_no)
    WHERE o.state = 'open' AND a.part <> 'out' AND s.played_on < $until
      AND s.starts_at > coalesce(o.requested_at, o.first_stage_at)
),
on_site AS (
    SELECT DISTINCT e.guard_no, e.session_no, x.area, x.side
    FROM exposures AS e
    JOIN maybe_worn() AS w USING (session_no)
    JOIN store.guards AS g ON g.guard_no = w.guard_no AND g.athlete_no = e.athlete_no
    JOIN store.kinds AS k USING (kind)
    JOIN sites AS x
        ON x.guard_no = e.guard_no AND x.area = k.area::VARCHAR AND covers(g.side, x.side)
),
worn AS (
    SELECT e.guard_no, count(*) AS sessions
    FROM exposures AS e
    JOIN worn_guards() AS w ON w.session_no = e.session_no AND w.guard_no = e.guard_no
    GROUP BY e.guard_no
),
looked_at AS (
    SELECT e.guard_no, e.session_no, coalesce(c.covered, 0) < n.sites AS is_bare
    FROM exposures AS e
    JOIN (SELECT guard_no, count(*) AS sites FROM sites GROUP BY guard_no) AS n USING (guard_no)
    LEFT JOIN (
        SELECT guard_no, session_no, count(*) AS covered FROM on_site GROUP BY guard_no, session_no
    ) AS c USING (guard_no, session_no)
),
bare AS (
    SELECT
        l.guard_no,
        count(*) AS exposures,
        count(*) FILTER (l.is_bare) AS bare,
        coalesce(any_value(w.sessions), 0) AS worn
    FROM looked_at AS l
    LEFT JOIN worn AS w USING (guard_no)
    GROUP BY l.guard_no
)
SELECT
    o.guard, o.athlete, o.name, o.team, o.season, o.department,
    d.name AS department_name,
    o.plan, o.time_zone, o.kind, o.side, o.purpose, o.scan_method, o.printer, o.remake_of,
    o.promised_on,
    o.requested_at, o.scanned_at, o.modelled_at, o.printed_at, o.finished_at, o.shipped_at,
    o.delivered_at, o.fitted_at, o.retired_at, o.cancelled_at, o.first_stage_at, o.stage, o.state,
    o.is_by_day, o.as_of,
    coalesce(t.stages, 0) AS stamped_twice,
    f.first_game_at,
    n.session AS next_session,
    n.starts_at AS next_game_at,
    n.played_on AS next_game_on,
    n.label AS next_game_label,
    rule_in_games(o.department, o.sport, o.kind, o.purpose) AS rule,
    CASE WHEN o.state = 'open' THEN coalesce(b.exposures, 0) END AS exposures,
    CASE WHEN o.state = 'open' THEN coalesce(b.bare, 0) END AS bare,
    CASE WHEN o.state = 'open' THEN coalesce(b.worn, 0) END AS worn
FROM orders AS o
JOIN store.departments AS d USING (department)
LEFT JOIN first_games() AS f USING (guard_no)
LEFT JOIN bare AS b USING (guard_no)
LEFT JOIN twice AS t USING (guard_no)
LEFT JOIN next_games($until, $departments, $teams, $sports, $sexes) AS n USING (team)
ORDER BY o.guard;
