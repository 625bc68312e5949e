-- question: Which guards lack a stage between two that they reached?
-- touches: turnaround (time of one stage)
-- why: The guard is in the whole time, and missing from the times of the stages before and
--   after.
-- mend: Add the stage if its time is known.
-- works on: checks
-- scope: checks
-- grain: one row per guard
-- columns: doubts
-- Where a printer stands in the department nothing needs to be shipped or delivered.
WITH reached AS (
    SELECT
        guard_no,
        min(place) AS first_place,
        max(place) AS last_place,
        list(place) AS places,
        max(reached_on) AS dated_on
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
    g.department, g.team, g.athlete, g.name, x.dated_on, 'stages' AS table_name, g.guard AS key,
    'not recorded: ' || x.stages AS detail
FROM gaps AS x
JOIN checked_guards AS g USING (guard_no)
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
