-- question: What became of every fitted guard: is it worn on, was it retired, or asked for anew, and why?
-- works on: orders
-- scope: guards
-- grain: one row per guard that was fitted, or that was asked for anew without having been fitted
-- columns:
--   guard VARCHAR             the guard
--   athlete VARCHAR           its athlete
--   name VARCHAR              the athlete's name
--   team VARCHAR              the team it was made for
--   department VARCHAR        the team's department
--   kind VARCHAR              guard kind
--   side VARCHAR              side
--   purpose VARCHAR           preventive or return
--   scan_method VARCHAR       scanner or phone; NULL where not recorded
--   printer VARCHAR           printer; NULL where not recorded
--   material VARCHAR          NULL where not recorded (so too the parts of the build below)
--   lot VARCHAR               lot or spool
--   profile VARCHAR           name of the print settings
--   operator VARCHAR          who ran the print
--   scan_quality VARCHAR      good, usable or rescan
--   model_version VARCHAR     version of the model
--   inspection VARCHAR        passed or failed
--   contact_pct DOUBLE        share of the pad in contact, percent; NULL where not recorded
--   asked_on DATE             local day of its first stage
--   delivered_on DATE         local day it was delivered; NULL where it never was
--   fitted_on DATE            local day it was fitted; NULL where it never was
--   first_guard VARCHAR       the first guard of its chain
--   place BIGINT              its place in the chain, from 1
--   successor VARCHAR         the guard asked for in its place; NULL where there is none
--   counts_as VARCHAR         remake, replacement, or reason not recorded
--   reason VARCHAR            why, as recorded
--   successor_asked_on DATE   local day on which that was asked for
--   successor_fitted_on DATE  local day on which that was fitted; NULL while it is not
--   successors BIGINT         guards asked for in its place; more than 1 is unusual
--   remakes BIGINT            of those, how many are remakes
--   ended_on DATE             local day it was retired or asked for anew; NULL while in use
--   known_through DATE        last day known
--   sessions_worn BIGINT      sessions it was worn in
--   worn_in_use BIGINT        of those, up to the day it ended
--   bare_exposures BIGINT     sessions taken part in while waiting for that one, a site of it known bare
WITH RECURSIVE orders AS (SELECT * FROM scoped_orders),
climbed AS (
    SELECT guard, athlete_no, guard AS first_guard, remake_of AS above, 1 AS place, [guard] AS path
    FROM orders
    UNION ALL
    SELECT c.guard, c.athlete_no, g.guard, g.remake_of, c.place + 1, list_append(c.path, g.guard)
    FROM climbed AS c
    JOIN store.guards AS g ON g.guard = c.above AND g.athlete_no = c.athlete_no
    WHERE NOT list_contains(c.path, g.guard)
),
chains AS (
    SELECT guard, max_by(first_guard, place) AS first_guard, max(place) AS place
    FROM climbed
    GROUP BY guard
),
followed AS (
    SELECT
        o.guard_no, o.athlete_no, o.kind, o.side,
        s.* EXCLUDE (guard_no),
        least((o.retired_at AT TIME ZONE o.time_zone)::DATE, s.successor_asked_on) AS ended_on
    FROM orders AS o
    LEFT JOIN successors($until) AS s USING (guard_no)
),
worn AS (
    SELECT
        w.guard_no,
        count(*) AS sessions_worn,
        count(*) FILTER (f.ended_on IS NULL OR s.played_on <= f.ended_on) AS worn_in_use
    FROM worn_guards() AS w
    JOIN followed AS f USING (guard_no)
    JOIN store.sessions AS s USING (session_no)
    WHERE s.played_on < $until
    GROUP BY w.guard_no
),
sites AS (
    SELECT DISTINCT f.guard_no, k.area::VARCHAR AS area, u.side
    FROM followed AS f
    JOIN store.kinds AS k USING (kind)
    CROSS JOIN unnest(sides_of(k.area, f.side)) AS u(side)
    WHERE f.successor IS NOT NULL
),
-- Sessions taken part in from the day the next guard was asked for to the day before it was fitted.
waits AS (
    SELECT f.guard_no, f.athlete_no, s.session_no
    FROM followed AS f
    JOIN store.attendance AS a USING (athlete_no)
    JOIN store.sessions AS s USING (session_no)
    WHERE a.part <> 'out'
      AND s.played_on < $until
      AND s.played_on >= f.successor_asked_on
      AND s.played_on < coalesce(least(f.successor_fitted_on, f.successor_retired_on), $until)
),
covered AS (
    SELECT w.guard_no, w.session_no, count(DISTINCT (x.area, x.side)) AS sites
    FROM waits AS w
    JOIN maybe_worn() AS r USING (session_no)
    JOIN store.guards AS g ON g.guard_no = r.guard_no AND g.athlete_no = w.athlete_no
    JOIN store.kinds AS k USING (kind)
    JOIN sites AS x
        ON x.guard_no = w.guard_no AND x.area = k.area::VARCHAR AND covers(g.side, x.side)
    GROUP BY w.guard_no, w.session_no
),
bare AS (
    SELECT w.guard_no, count(*) AS bare_exposures
    FROM waits AS w
    JOIN (SELECT guard_no, count(*) AS sites FROM sites GROUP BY guard_no) AS n USING (guard_no)
    LEFT JOIN covered AS c USING (guard_no, session_no)
    WHERE coalesce(c.sites, 0) < n.sites
    GROUP BY w.guard_no
)
SELECT
    o.guard, o.athlete, o.name, o.team, o.department, o.kind, o.side, o.purpose, o.scan_method,
    o.printer, m.material, m.lot, m.profile, m.operator,
    m.scan_quality::VARCHAR AS scan_quality,
    m.model_version,
    m.inspection::VARCHAR AS inspection,
    o.contact_pct,
    (o.first_stage_at AT TIME ZONE o.time_zone)::DATE AS asked_on,
    (o.delivered_at AT TIME ZONE o.time_zone)::DATE AS delivered_on,
    (o.fitted_at AT TIME ZONE o.time_zone)::DATE AS fitted_on,
    c.first_guard,
    c.place::BIGINT AS place,
    f.successor, f.counts_as, f.reason, f.successor_asked_on, f.successor_fitted_on,
    coalesce(f.successors, 0) AS successors,
    coalesce(f.remakes, 0) AS remakes,
    f.ended_on,
    ($until::DATE - 1) AS known_through,
    coalesce(w.sessions_worn, 0) AS sessions_worn,
    coalesce(w.worn_in_use, 0) AS worn_in_use,
    coalesce(b.bare_exposures, 0) AS bare_exposures
FROM orders AS o
JOIN store.guards AS m USING (guard_no)
JOIN chains AS c ON c.guard = o.guard
JOIN followed AS f USING (guard_no)
LEFT JOIN worn AS w USING (guard_no)
LEFT JOIN bare AS b USING (guard_no)
WHERE o.fitted_at IS NOT NULL OR f.successor IS NOT NULL
ORDER BY asked_on, o.guard;
