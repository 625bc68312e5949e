-- question: When did every order reach each stage, and what did its print take?
-- params:
--   until DATE  first day not yet known (the day after "through")
-- grain: one row per order of any department (a guard of which a stage is known)
-- columns:
--   department VARCHAR         of the athlete; of an athlete at two, the first by key
--   plan VARCHAR               onsite printer or weekly allotment
--   time_zone VARCHAR          of the department
--   kind VARCHAR               guard kind
--   scan_method VARCHAR        scanner or phone; NULL: not recorded
--   print_hours DOUBLE         hours of printing; NULL: not recorded
--   requested_at TIMESTAMPTZ   first stamp; NULL: not reached (as below)
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
WITH homes AS (
    SELECT r.athlete_no, min(t.department) AS department
    FROM store.roster AS r
    JOIN store.teams AS t USING (team)
    GROUP BY r.athlete_no
),
days AS (
    SELECT *, ($until::DATE::TIMESTAMP AT TIME ZONE time_zone) AS as_of FROM store.departments
),
guards AS (
    SELECT
        g.guard_no, g.guard, g.athlete_no, d.department, d.plan::VARCHAR AS plan, d.time_zone,
        g.kind, g.scan_method::VARCHAR AS scan_method, g.print_hours, d.as_of
    FROM store.guards AS g
    JOIN homes AS h USING (athlete_no)
    JOIN days AS d USING (department)
),
stamps AS (
    SELECT
        s.guard_no,
        min(s.reached_at) FILTER (s.stage = 'requested') AS requested_at,
        min(s.reached_at) FILTER (s.stage = 'scanned') AS scanned_at,
        min(s.reached_at) FILTER (s.stage = 'modelled') AS modelled_at,
        min(s.reached_at) FILTER (s.stage = 'printed') AS printed_at,
        min(s.reached_at) FILTER (s.stage = 'finished') AS finished_at,
        min(s.reached_at) FILTER (s.stage = 'shipped') AS shipped_at,
        min(s.reached_at) FILTER (s.stage = 'delivered') AS delivered_at,
        min(s.reached_at) FILTER (s.stage = 'fitted') AS fitted_at,
        min(s.reached_at) FILTER (s.stage = 'retired') AS retired_at,
        min(s.reached_at) FILTER (s.stage = 'cancelled') AS cancelled_at
    FROM guards AS g
    JOIN store.stages AS s USING (guard_no)
    WHERE s.reached_at < g.as_of
    GROUP BY s.guard_no
),
games AS (
    SELECT g.guard_no, min(q.starts_at) AS first_game_at
    FROM guards AS g
    JOIN stamps AS s USING (guard_no)
    JOIN store.roster AS r USING (athlete_no)
    JOIN store.sessions AS q USING (team, season)
    WHERE q.setting = 'game' AND q.starts_at > s.requested_at
    GROUP BY g.guard_no
)
SELECT
    g.department, g.plan, g.time_zone, g.kind, g.scan_method, g.print_hours,
    s.* EXCLUDE (guard_no), g.as_of, m.first_game_at
FROM guards AS g
JOIN stamps AS s USING (guard_no)
LEFT JOIN games AS m USING (guard_no)
ORDER BY g.guard;
