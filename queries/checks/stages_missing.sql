-- question: Which guards lack a stage between two that they reached?
-- works on: checks
-- params:
--   seasons VARCHAR[]          seasons of the scope, NULL for all (so too the lists below)
--   until DATE                 first day not yet known (the day after "through")
--   departments VARCHAR[]      departments
--   teams VARCHAR[]            teams
--   sports VARCHAR[]           sports
--   sexes VARCHAR[]            sexes of the teams
--   settings VARCHAR[]         game, practice
--   position_groups VARCHAR[]  position groups, as in roster
--   kinds VARCHAR[]            guard kinds; NULL: guards and injuries of every kind
--   areas VARCHAR[]            body areas
--   sides VARCHAR[]            sides
-- grain: one row per guard
-- columns:
--   department VARCHAR  key; NULL where the row belongs to none
--   team VARCHAR        key
--   athlete VARCHAR     key
--   name VARCHAR        as in roster; the key where not on that roster
--   dated_on DATE       the day it is about
--   table_name VARCHAR  the table the row is in
--   key VARCHAR         key of the row there; of attendance the session, of wear the guard
--   detail VARCHAR      what is doubtful, in words
-- Where a printer stands in the department nothing needs to be shipped or delivered.
WITH reached AS (
    SELECT
        guard_no,
        min(place) AS first_place,
        max(place) AS last_place,
        list(place) AS places,
        max((reached_at AT TIME ZONE time_zone)::DATE) AS dated_on
    FROM checked_stages
    WHERE place < 8
    GROUP BY guard_no
    HAVING count(*) < max(place) - min(place) + 1
),
gaps AS (
    SELECT
        r.guard_no,
        any_value(r.dated_on) AS dated_on,
        string_agg(s.stage, ', ' ORDER BY s.place) AS stages
    FROM reached AS r
    JOIN checked_guards AS g USING (guard_no)
    JOIN (
        SELECT unnest(enum_range(NULL::store.stage_word))::VARCHAR AS stage,
               unnest(range(10)) AS place
    ) AS s
        ON s.place BETWEEN r.first_place AND r.last_place
        AND NOT list_contains(r.places, s.place)
        AND NOT (g.plan = 'onsite printer' AND s.stage IN ('shipped', 'delivered'))
    GROUP BY r.guard_no
)
SELECT
    g.department,
    g.team,
    g.athlete,
    g.name,
    x.dated_on,
    'stages' AS table_name,
    g.guard AS key,
    'not recorded: ' || x.stages AS detail
FROM gaps AS x
JOIN checked_guards AS g USING (guard_no)
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
