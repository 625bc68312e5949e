-- question: How long did every order take, or has it waited so far, from request to fitting?
-- params:
--   until DATE  first day not yet known (the day after "through")
-- grain: one row per order of any department that was requested
-- columns:
--   department VARCHAR   of the athlete; of an athlete at two, the first by key
--   plan VARCHAR         onsite printer or weekly allotment
--   time_zone VARCHAR    of the department
--   kind VARCHAR         guard kind
--   scan_method VARCHAR  scanner or phone; NULL: not recorded
--   from_at TIMESTAMPTZ  when it was asked for
--   to_at TIMESTAMPTZ    when it was over, else the end of the last day known
--   ending VARCHAR       finished (fitted), cancelled or open
WITH homes AS (
    SELECT r.athlete_no, min(t.department) AS department
    FROM store.roster AS r
    JOIN store.teams AS t USING (team)
    GROUP BY r.athlete_no
),
days AS (  -- one instant a department instead of one a stamp
    SELECT *, ($until::DATE::TIMESTAMP AT TIME ZONE time_zone) AS as_of FROM store.departments
),
guards AS (
    SELECT
        g.guard_no, g.guard, d.department, d.plan::VARCHAR AS plan, d.time_zone, g.kind,
        g.scan_method::VARCHAR AS scan_method, d.as_of
    FROM store.guards AS g
    JOIN homes AS h USING (athlete_no)
    JOIN days AS d USING (department)
),
stamps AS (
    SELECT
        s.guard_no,
        min(s.reached_at) FILTER (s.stage = 'requested') AS requested_at,
        min(s.reached_at) FILTER (s.stage = 'fitted') AS fitted_at,
        min(s.reached_at) FILTER (s.stage = 'cancelled') AS cancelled_at,
        bool_or(s.stage = 'retired') AS is_retired
    FROM guards AS g
    JOIN store.stages AS s USING (guard_no)
    WHERE s.reached_at < g.as_of AND s.stage IN ('requested', 'fitted', 'cancelled', 'retired')
    GROUP BY s.guard_no
)
SELECT
    g.department, g.plan, g.time_zone, g.kind, g.scan_method,
    s.requested_at AS from_at,
    coalesce(s.fitted_at, s.cancelled_at, g.as_of) AS to_at,
    CASE
        WHEN s.fitted_at IS NOT NULL THEN 'finished'
        WHEN s.cancelled_at IS NOT NULL THEN 'cancelled'
        ELSE 'open'
    END AS ending
FROM guards AS g
JOIN stamps AS s USING (guard_no)
WHERE s.requested_at IS NOT NULL
  AND coalesce(s.fitted_at, s.cancelled_at, g.as_of) >= s.requested_at
  AND NOT (s.is_retired AND s.fitted_at IS NULL)
ORDER BY g.guard;
