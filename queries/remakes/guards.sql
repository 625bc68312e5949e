-- question: What became of every fitted guard: is it worn on, was it retired, or asked for anew, and why?
-- works on: orders
-- params:
--   seasons VARCHAR[]          seasons of the scope, NULL for all (so too the lists below)
--   until DATE                 first day not yet known (the day after "through")
--   departments VARCHAR[]      departments
--   teams VARCHAR[]            teams
--   sports VARCHAR[]           sports
--   sexes VARCHAR[]            sexes of the teams
--   position_groups VARCHAR[]  position groups, as in roster
--   kinds VARCHAR[]            guard kinds; never NULL
--   areas VARCHAR[]            body areas, of those the kinds cover
--   sides VARCHAR[]            sides
-- grain: one row per guard that was fitted, or that was asked for anew without having been fitted
-- columns:
--   guard VARCHAR            the guard
--   athlete VARCHAR          its athlete
--   name VARCHAR             the athlete's name
--   team VARCHAR             the team it was made for
--   department VARCHAR       the team's department
--   kind VARCHAR             guard kind
--   side VARCHAR             side
--   purpose VARCHAR          preventive or return
--   scan_method VARCHAR      scanner or phone; NULL where not recorded
--   printer VARCHAR          printer; NULL where not recorded
--   contact_pct DOUBLE       share of the pad in contact, percent; NULL where not recorded
--   asked_on DATE            local day of its first stage
--   fitted_on DATE           local day it was fitted; NULL where it never was
--   first_guard VARCHAR      the first guard of its chain
--   place BIGINT             its place in the chain, from 1
--   redone_by VARCHAR        the guard asked for in its place; NULL where there is none
--   redo VARCHAR             remake, replacement, or reason not recorded
--   reason VARCHAR           why, as recorded
--   redone_on DATE           local day on which that was asked for
--   redone_fitted_on DATE    local day on which that was fitted; NULL while it is not
--   redos BIGINT             guards asked for in its place; more than 1 is unusual
--   ended_on DATE            local day it was retired or asked for anew; NULL while in use
--   known_through DATE       last day known
--   sessions_worn BIGINT     sessions it was worn in
--   bare_exposures BIGINT    sessions without a guard of the kind while waiting for that one
WITH RECURSIVE orders AS (SELECT * FROM scoped_orders),
athletes AS (SELECT DISTINCT athlete_no FROM orders),
-- What was asked for in a guard's place may belong to a later season than the guard.
asked_anew AS (
    SELECT
        g.remake_of,
        g.guard,
        g.remake_reason::VARCHAR AS reason,
        min((q.reached_at AT TIME ZONE z.time_zone)::DATE) AS redone_on,
        min((q.reached_at AT TIME ZONE z.time_zone)::DATE) FILTER (q.stage = 'fitted')
            AS redone_fitted_on,
        bool_or(q.stage = 'cancelled') AS is_cancelled
    FROM store.guards AS g
    SEMI JOIN athletes USING (athlete_no)
    JOIN athlete_zones() AS z USING (athlete_no)
    JOIN store.stages AS q USING (guard_no)
    WHERE g.remake_of IS NOT NULL
      AND g.remake_of <> g.guard
      AND (q.reached_at AT TIME ZONE z.time_zone)::DATE < $until
    GROUP BY g.remake_of, g.guard, g.remake_reason
),
successors AS (
    SELECT
        *,
        count(*) OVER (PARTITION BY remake_of) AS redos,
        row_number() OVER (PARTITION BY remake_of ORDER BY redone_on, guard) AS choice
    FROM asked_anew
    WHERE NOT is_cancelled OR redone_fitted_on IS NOT NULL
),
climbed AS (
    SELECT guard, guard AS first_guard, remake_of AS above, 1 AS place, [guard] AS path
    FROM orders
    UNION ALL
    SELECT c.guard, g.guard, g.remake_of, c.place + 1, list_append(c.path, g.guard)
    FROM climbed AS c
    JOIN store.guards AS g ON g.guard = c.above
    WHERE NOT list_contains(c.path, g.guard)
),
chains AS (
    SELECT guard, max_by(first_guard, place) AS first_guard, max(place) AS place
    FROM climbed
    GROUP BY guard
),
worn AS (
    SELECT w.guard_no, count(*) AS sessions_worn
    FROM store.wear AS w
    JOIN store.sessions AS s USING (session_no)
    WHERE s.played_on < $until AND w.guard_no IN (SELECT guard_no FROM orders)
    GROUP BY w.guard_no
),
waits AS (
    SELECT o.guard_no, o.athlete_no, o.kind, s.redone_on, s.redone_fitted_on
    FROM orders AS o
    JOIN successors AS s ON s.remake_of = o.guard AND s.choice = 1
),
bare AS (
    SELECT w.guard_no, count(*) AS bare_exposures
    FROM waits AS w
    JOIN store.attendance AS a USING (athlete_no)
    JOIN store.sessions AS s USING (session_no)
    WHERE a.part <> 'out'
      AND s.played_on < $until
      AND s.played_on >= w.redone_on
      AND (w.redone_fitted_on IS NULL OR s.played_on < w.redone_fitted_on)
      AND NOT EXISTS (
          SELECT 1
          FROM store.wear AS x
          JOIN store.guards AS g USING (guard_no)
          WHERE x.session_no = a.session_no AND g.athlete_no = w.athlete_no AND g.kind = w.kind
      )
    GROUP BY w.guard_no
)
SELECT
    o.guard,
    o.athlete,
    o.name,
    o.team,
    o.department,
    o.kind,
    o.side,
    o.purpose,
    o.scan_method,
    o.printer,
    o.contact_pct,
    (o.first_stage_at AT TIME ZONE o.time_zone)::DATE AS asked_on,
    (o.fitted_at AT TIME ZONE o.time_zone)::DATE AS fitted_on,
    c.first_guard,
    c.place::BIGINT AS place,
    s.guard AS redone_by,
    CASE
        WHEN s.guard IS NULL THEN NULL
        WHEN s.reason IN ('fit', 'damage', 'print fault', 'scan fault') THEN 'remake'
        WHEN s.reason IN ('lost', 'body change', 'worn out') THEN 'replacement'
        ELSE 'reason not recorded'
    END AS redo,
    s.reason,
    s.redone_on,
    s.redone_fitted_on,
    coalesce(s.redos, 0) AS redos,
    least((o.retired_at AT TIME ZONE o.time_zone)::DATE, s.redone_on) AS ended_on,
    ($until::DATE - 1) AS known_through,
    coalesce(w.sessions_worn, 0) AS sessions_worn,
    coalesce(b.bare_exposures, 0) AS bare_exposures
FROM orders AS o
JOIN chains AS c USING (guard)
LEFT JOIN successors AS s ON s.remake_of = o.guard AND s.choice = 1
LEFT JOIN worn AS w USING (guard_no)
LEFT JOIN bare AS b USING (guard_no)
WHERE o.fitted_at IS NOT NULL OR s.guard IS NOT NULL
ORDER BY asked_on, o.guard;
