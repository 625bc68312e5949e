-- question: When did every order reach each stage, and did it take so long, from request to fitting?
-- params:
--   until DATE  first day not yet known (the day after "through")
-- grain: one row per order of any department of which a stage of the making is known
-- columns:
--   department VARCHAR         of the athlete; of an athlete at two, the first by key (so too the team)
--   team VARCHAR               key
--   plan VARCHAR               onsite printer or weekly allotment
--   time_zone VARCHAR          of the department
--   kind VARCHAR               guard kind
--   scan_method VARCHAR        scanner or phone; NULL: not recorded
--   print_hours DOUBLE         hours of printing; NULL: not recorded
--   requested_on DATE          day of the first stamp there; NULL: not reached (so too below)
--   scanned_on DATE            day
--   modelled_on DATE           day
--   printed_on DATE            day
--   finished_on DATE           day
--   shipped_on DATE            day
--   delivered_on DATE          day
--   fitted_on DATE             day
--   over_on DATE               day on which it was cancelled or retired without being fitted
--   fitted_hour DOUBLE         hours of that day until it was fitted; NULL: only the day is known
--   requested_at TIMESTAMPTZ   first stamp; NULL: not reached (so too below)
--   scanned_at TIMESTAMPTZ     first stamp
--   modelled_at TIMESTAMPTZ    first stamp
--   printed_at TIMESTAMPTZ     first stamp
--   finished_at TIMESTAMPTZ    first stamp
--   shipped_at TIMESTAMPTZ     first stamp
--   delivered_at TIMESTAMPTZ   first stamp
--   fitted_at TIMESTAMPTZ      first stamp
--   retired_at TIMESTAMPTZ     first stamp
--   cancelled_at TIMESTAMPTZ   first stamp
--   as_of TIMESTAMPTZ          end of the last day known, in the department
--   first_game_at TIMESTAMPTZ  first game of a team of the athlete after the request; NULL: none
--   from_at TIMESTAMPTZ        when it was asked for
--   to_at TIMESTAMPTZ          when it was over, else the end of the last day known
--   ending VARCHAR             finished (fitted), cancelled or open; NULL: its time is not known
WITH homes AS (
    SELECT
        r.athlete_no,
        min(t.department) AS department,
        min_by(t.team, (t.department, t.team)) AS team
    FROM store.roster AS r
    JOIN store.teams AS t USING (team)
    GROUP BY r.athlete_no
),
days AS (  -- one instant a department instead of one a stamp
    SELECT *, ($until::DATE::TIMESTAMP AT TIME ZONE time_zone) AS as_of FROM store.departments
),
stamps AS (
    SELECT
        s.guard_no,
        any_value(h.department) AS department,
        any_value(h.team) AS team,
        any_value(d.as_of) AS as_of,
        first_stamps(s.stage, s.reached_at) AS first,
        bool_or(s.stage = 'fitted' AND s.timed = 'no') AS is_fitted_by_day
    FROM store.stages AS s
    JOIN store.guards AS g USING (guard_no)
    JOIN homes AS h USING (athlete_no)
    JOIN days AS d USING (department)
    WHERE s.reached_at < d.as_of
    GROUP BY s.guard_no
    HAVING bool_or(s.stage NOT IN ('cancelled', 'retired'))
),
orders AS (SELECT guard_no, department, team, as_of, is_fitted_by_day, first.* FROM stamps),
games AS (
    SELECT o.guard_no, min(q.starts_at) AS first_game_at
    FROM orders AS o
    JOIN store.guards AS g USING (guard_no)
    JOIN store.roster AS r USING (athlete_no)
    JOIN store.sessions AS q ON q.team = r.team AND q.season = r.season
    WHERE q.setting = 'game' AND q.starts_at > o.requested_at
    GROUP BY o.guard_no
)
SELECT
    s.department, s.team,
    d.plan::VARCHAR AS plan,
    d.time_zone, g.kind,
    g.scan_method::VARCHAR AS scan_method,
    g.print_hours,
    (s.requested_at AT TIME ZONE d.time_zone)::DATE AS requested_on,
    (s.scanned_at AT TIME ZONE d.time_zone)::DATE AS scanned_on,
    (s.modelled_at AT TIME ZONE d.time_zone)::DATE AS modelled_on,
    (s.printed_at AT TIME ZONE d.time_zone)::DATE AS printed_on,
    (s.finished_at AT TIME ZONE d.time_zone)::DATE AS finished_on,
    (s.shipped_at AT TIME ZONE d.time_zone)::DATE AS shipped_on,
    (s.delivered_at AT TIME ZONE d.time_zone)::DATE AS delivered_on,
    (s.fitted_at AT TIME ZONE d.time_zone)::DATE AS fitted_on,
    CASE
        WHEN s.fitted_at IS NULL
            THEN (least(s.cancelled_at, s.retired_at) AT TIME ZONE d.time_zone)::DATE
    END AS over_on,
    CASE
        WHEN NOT coalesce(s.is_fitted_by_day, false)
            THEN epoch((s.fitted_at AT TIME ZONE d.time_zone)::TIME) / 3600
    END AS fitted_hour,
    s.* EXCLUDE (guard_no, department, team, as_of, is_fitted_by_day),
    s.as_of, m.first_game_at,
    s.requested_at AS from_at,
    coalesce(s.fitted_at, s.cancelled_at, s.as_of) AS to_at,
    CASE
        WHEN s.requested_at IS NULL THEN NULL
        WHEN coalesce(s.fitted_at, s.cancelled_at, s.as_of) < s.requested_at THEN NULL
        WHEN s.fitted_at IS NOT NULL THEN 'finished'
        WHEN s.retired_at IS NOT NULL THEN NULL
        WHEN s.cancelled_at IS NOT NULL THEN 'cancelled'
        ELSE 'open'
    END AS ending
FROM orders AS s
JOIN store.guards AS g USING (guard_no)
JOIN store.departments AS d USING (department)
LEFT JOIN games AS m USING (guard_no)
ORDER BY g.guard;
