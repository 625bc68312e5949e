-- question: In which time zone is a time of a team, an athlete or a guard written?
-- params:
--   team VARCHAR     key; NULL: not asked for (so too the others)
--   athlete VARCHAR  key
--   guard VARCHAR    key
-- grain: one row per time zone of what is asked for; without anything asked for, of all departments
-- columns:
--   time_zone VARCHAR  as in departments
SELECT DISTINCT time_zone
FROM (
    SELECT d.time_zone
    FROM store.departments AS d
    JOIN store.teams AS t USING (department)
    WHERE t.team = $team
    UNION ALL
    SELECT z.time_zone
    FROM athlete_zones() AS z
    JOIN store.athletes AS a USING (athlete_no)
    LEFT JOIN store.guards AS g USING (athlete_no)
    WHERE a.athlete = $athlete OR g.guard = $guard
    UNION ALL
    SELECT time_zone
    FROM store.departments
    WHERE coalesce($team, $athlete, $guard)::VARCHAR IS NULL
)
ORDER BY time_zone;
