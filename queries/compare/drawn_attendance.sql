-- question: Of the athletes of a draw listed for a practice, of whom was attendance recorded: of those
--   whose turn had come, and of those still waiting?
-- works on: scope
-- scope: sites
-- grain: one row per athlete listed, practice and draw of which some have come, others wait, and
--   somebody's attendance is recorded; practices whatever settings the scope asks for
-- columns:
--   stratum BIGINT       number of the practice and draw
--   athlete_no INTEGER   the athlete's number
--   is_owner BOOLEAN     the athlete's turn had come
--   is_recorded BOOLEAN  attendance is recorded: full, limited or out
WITH turns AS (
    SELECT d.draw, d.athlete_no, min(d.drawn_on) AS drawn_on, min(d.come_on) AS come_on
    FROM drawn_sites($until, $kinds) AS d
    JOIN scoped_sites AS x ON x.area = d.area AND x.side = d.side
    GROUP BY d.draw, d.athlete_no
),
listed AS (
    SELECT
        s.session_no, t.draw, t.athlete_no,
        s.played_on >= t.come_on AS is_owner,
        a.session_no IS NOT NULL AS is_recorded
    FROM scope_sessions(
        $seasons, $until, $departments, $teams, $sports, $sexes, ['practice']
    ) AS s
    JOIN store.roster AS r ON r.team = s.team AND r.season = s.season
    JOIN turns AS t ON t.athlete_no = r.athlete_no AND s.played_on > t.drawn_on
    LEFT JOIN store.attendance AS a
        ON a.session_no = s.session_no AND a.athlete_no = r.athlete_no
    WHERE is_listed(r.joined_on, r.left_on, s.played_on)
      AND is_asked($position_groups, r.position_group)
)
SELECT
    dense_rank() OVER (ORDER BY session_no, draw) AS stratum,
    athlete_no, is_owner, is_recorded
FROM listed
WINDOW beside AS (PARTITION BY session_no, draw)
QUALIFY bool_or(is_owner) OVER beside AND NOT bool_and(is_owner) OVER beside
    AND bool_or(is_recorded) OVER beside
ORDER BY stratum, athlete_no;
