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
        l.session_no, t.draw, t.athlete_no, l.is_recorded,
        l.played_on >= t.come_on AS is_owner
    FROM listed_athletes AS l
    JOIN turns AS t ON t.athlete_no = l.athlete_no AND l.played_on > t.drawn_on
    WHERE l.setting = 'practice'
)
SELECT
    dense_rank() OVER (ORDER BY session_no, draw) AS stratum,
    athlete_no, is_owner, is_recorded
FROM listed
WINDOW beside AS (PARTITION BY session_no, draw)
QUALIFY bool_or(is_owner) OVER beside AND NOT bool_and(is_owner) OVER beside
    AND bool_or(is_recorded) OVER beside
ORDER BY stratum, athlete_no;
