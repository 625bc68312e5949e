-- Writes the departments of the view `incoming`; $load_no is the load.
-- A department already there keeps its load and takes the new cells.
INSERT INTO store.departments (department, name, plan, prints_per_week, time_zone, since, load_no)
SELECT
    incoming.department,
    incoming.name,
    incoming.plan,
    incoming.prints_per_week,
    incoming.time_zone,
    incoming.since,
    $load_no
FROM incoming
ON CONFLICT (department) DO UPDATE SET
    name = excluded.name,
    plan = excluded.plan,
    prints_per_week = excluded.prints_per_week,
    time_zone = excluded.time_zone,
    since = excluded.since
