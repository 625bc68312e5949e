-- question: How many of those on the roster take part in a session, by sport and setting?
-- scope: athletes
-- params:
--   settings VARCHAR[]         game, practice
-- grain: one row per sport and setting with a session whose attendance was recorded
-- columns:
--   sport VARCHAR      as in teams
--   setting VARCHAR    game or practice
--   sessions BIGINT    sessions with at least one row of attendance
--   places BIGINT      athletes on the roster of the day, added up over those sessions
--   took_part BIGINT   of these, recorded as taking part, in full or limited
WITH recorded AS (
    SELECT *
    FROM scope_sessions(
        $seasons, $until, $departments, $teams, $sports, $sexes, $settings
    )
    SEMI JOIN store.attendance USING (session_no)
)
SELECT
    s.sport, s.setting,
    count(DISTINCT s.session_no) AS sessions,
    count(r.athlete_no) AS places,
    count(a.athlete_no) AS took_part
FROM recorded AS s
LEFT JOIN store.roster AS r
    ON r.team = s.team AND r.season = s.season
    AND is_listed(r.joined_on, r.left_on, s.played_on)
    AND is_asked($position_groups, r.position_group)
LEFT JOIN store.attendance AS a
    ON a.session_no = s.session_no AND a.athlete_no = r.athlete_no AND a.part <> 'out'
GROUP BY s.sport, s.setting
ORDER BY s.sport, s.setting;
