-- The stages of every guard as far as they were known by `until`: a stage is known from its day in
-- the department's time zone. Of several stamps of one stage the first counts. `place` is its place
-- in the usual row of stages, from 0; `reached_on` its day there.
CREATE OR REPLACE TEMP TABLE checked_stages AS
WITH ends AS (
    SELECT athlete_no, time_zone, $until::TIMESTAMP AT TIME ZONE time_zone AS over_at
    FROM athlete_zones()
    SEMI JOIN checked_places USING (athlete_no)
)
SELECT
    q.guard_no,
    q.stage::VARCHAR AS stage,
    enum_code(q.stage)::INTEGER AS place,
    min(q.reached_at) AS reached_at,
    any_value(e.time_zone) AS time_zone,
    (min(q.reached_at) AT TIME ZONE any_value(e.time_zone))::DATE AS reached_on,
    max(q.load_no) AS load_no
FROM store.stages AS q
JOIN store.guards AS g USING (guard_no)
JOIN ends AS e USING (athlete_no)
WHERE q.reached_at < e.over_at
GROUP BY q.guard_no, q.stage;

-- When each guard could first be worn, and when its use was over, with its department's time zone.
CREATE OR REPLACE TEMP TABLE checked_times AS
SELECT
    guard_no,
    min(reached_at) FILTER (stage IN ('delivered', 'fitted')) AS ready_at,
    min(reached_at) FILTER (stage IN ('retired', 'cancelled')) AS over_at,
    min(reached_at) FILTER (stage = 'requested') AS requested_at,
    any_value(time_zone) AS time_zone
FROM checked_stages
GROUP BY guard_no;

-- Guards of the scope (the season is that in which they were made) that were known by then.
-- `is_staged`: a stage is known; without one a guard is known by its wear, or it is never dated.
CREATE OR REPLACE TEMP TABLE checked_guards AS
SELECT
    g.department, g.team, g.athlete, g.name, g.guard_no, g.guard, g.athlete_no, g.plan, g.kind,
    g.side, g.purpose, g.remake_of,
    t.guard_no IS NOT NULL AS is_staged,
    t.ready_at, t.over_at, t.requested_at,
    (g.first_at AT TIME ZONE g.time_zone)::DATE AS known_on
FROM scope_guards(
    $seasons, $until, $departments, $teams, $sports, $sexes, $position_groups,
    coalesce($kinds, (SELECT list(DISTINCT kind) FROM store.kinds)), $areas, $sides,
    $made_of
) AS g
LEFT JOIN checked_times AS t USING (guard_no)
WHERE g.first_at IS NOT NULL
   OR NOT (
       EXISTS (SELECT 1 FROM store.stages AS q WHERE q.guard_no = g.guard_no)
       OR EXISTS (SELECT 1 FROM worn_guards() AS w WHERE w.guard_no = g.guard_no)
   );
