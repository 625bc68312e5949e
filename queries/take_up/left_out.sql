-- question: Which records of a guard worn do not count toward take-up, and why?
-- scope: guards
-- grain: one row per reason
-- columns:
--   what VARCHAR   what was left out
--   why VARCHAR    the reason
--   number BIGINT  how many
WITH sessions AS (
    SELECT *
    FROM scope_sessions($seasons, $until, $departments, $teams, $sports, $sexes, NULL)
),
made_for AS (
    SELECT guard_no, team
    FROM scope_guards(
        NULL, $until, $departments, $teams, $sports, $sexes, NULL, $kinds, $areas, $sides,
        $made_of
    )
),
worn AS (
    SELECT
        CASE
            WHEN r.athlete_no IS NULL THEN 'the athlete is not on the roster of the session’s team'
            WHEN m.team IS DISTINCT FROM s.team THEN 'made for another team of the athlete'
            WHEN a.part IS NULL OR a.part = 'out'
            THEN 'the athlete is not recorded as taking part in that session'
        END AS why
    FROM sessions AS s
    JOIN worn_guards() AS w USING (session_no)
    JOIN store.guards AS g USING (guard_no)
    LEFT JOIN made_for AS m USING (guard_no)
    LEFT JOIN store.attendance AS a ON a.session_no = w.session_no AND a.athlete_no = g.athlete_no
    LEFT JOIN store.roster AS r
        ON r.athlete_no = g.athlete_no AND r.team = s.team AND r.season = s.season
    WHERE g.kind IN (FROM asked_kinds($kinds, $areas))
      AND is_asked_side($sides, g.side)
      AND is_asked($position_groups, r.position_group)
)
SELECT 'guards worn' AS what, why, count(*) AS number
FROM worn
WHERE why IS NOT NULL
GROUP BY why
ORDER BY number DESC, why;
