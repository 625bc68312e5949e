-- question: Which guards reached their stages out of the usual order?
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
WITH told AS (
    SELECT
        guard_no, stage, place, reached_at, time_zone,
        max(reached_at) OVER (
            PARTITION BY guard_no ORDER BY place
            ROWS BETWEEN UNBOUNDED PRECEDING AND 1 PRECEDING
        ) AS so_far
    FROM checked_stages
),
early AS (
    SELECT
        guard_no,
        min((reached_at AT TIME ZONE time_zone)::DATE) AS dated_on,
        string_agg(
            stage || ' on ' || (reached_at AT TIME ZONE time_zone)::DATE, ', ' ORDER BY place
        ) AS stages
    FROM told
    WHERE reached_at < so_far
    GROUP BY guard_no
)
SELECT
    g.department,
    g.team,
    g.athlete,
    g.name,
    e.dated_on,
    'stages' AS table_name,
    g.guard AS key,
    e.stages || ': before a stage that usually comes first' AS detail
FROM early AS e
JOIN checked_guards AS g USING (guard_no)
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
