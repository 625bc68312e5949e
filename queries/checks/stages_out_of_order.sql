-- question: Which guards reached their stages out of the usual order?
-- touches: turnaround (time from stage to stage), orders (stage and age)
-- why: A time that ends before it begins is left out; others are too short or too long.
-- mend: Mend the instant; day and month may have changed places.
-- works on: checks
-- scope: checks
-- grain: one row per guard
-- columns: doubts
WITH ordered AS (
    SELECT
        *,
        max(reached_at) OVER (
            PARTITION BY guard_no ORDER BY place
            ROWS BETWEEN UNBOUNDED PRECEDING AND 1 PRECEDING
        ) AS so_far
    FROM checked_stages
),
early AS (
    SELECT
        guard_no,
        min(reached_on) AS dated_on,
        string_agg(stage || ' on ' || reached_on, ', ' ORDER BY place) AS stages
    FROM ordered
    WHERE reached_at < so_far
    GROUP BY guard_no
)
SELECT
    g.department, g.team, g.athlete, g.name, e.dated_on, 'stages' AS table_name, g.guard AS key,
    e.stages || ': before a stage that usually comes first' AS detail
FROM early AS e
JOIN checked_guards AS g USING (guard_no)
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
