-- question: Of the athletes listed for a practice, of whom was attendance recorded: of owners of a
--   fitted guard, and of others?
-- works on: scope
-- scope: groups
-- grain: one row per athlete listed, practice, and position group of which both owners and others
--   are listed and somebody's attendance is recorded; practices whatever settings the scope asks for
-- columns:
--   stratum BIGINT       number of the practice and position group
--   athlete_no INTEGER   the athlete's number
--   is_owner BOOLEAN     a guard that counts in this view was in hand then
--   is_recorded BOOLEAN  attendance is recorded: full, limited or out
WITH practices AS (
    SELECT *
    FROM scope_sessions($seasons, $until, $departments, $teams, $sports, $sexes, ['practice'])
),
owners AS (
    SELECT DISTINCT h.athlete_no, h.in_hand_at, h.over_at
    FROM scoped_in_hand AS h
    JOIN store.kinds AS k USING (kind)
    JOIN scoped_sites AS x ON x.area = k.area::VARCHAR AND covers(h.side, x.side)
    WHERE $purpose = 'all' OR h.purpose::VARCHAR = $purpose
),
listed AS MATERIALIZED (
    SELECT
        s.session_no, r.position_group, r.athlete_no,
        count(o.athlete_no) > 0 AS is_owner,
        count(a.session_no) > 0 AS is_recorded
    FROM practices AS s
    JOIN store.roster AS r ON r.team = s.team AND r.season = s.season
    LEFT JOIN owners AS o
        ON o.athlete_no = r.athlete_no AND o.in_hand_at <= s.starts_at
        AND coalesce(o.over_at > s.starts_at, true)
    LEFT JOIN store.attendance AS a
        ON a.session_no = s.session_no AND a.athlete_no = r.athlete_no
    WHERE is_listed(r.joined_on, r.left_on, s.played_on)
      AND is_asked($position_groups, r.position_group)
    GROUP BY s.session_no, r.position_group, r.athlete_no
),
strata AS (
    SELECT
        session_no, position_group,
        row_number() OVER (ORDER BY session_no, position_group) AS stratum
    FROM listed
    GROUP BY session_no, position_group
    HAVING bool_or(is_owner) AND NOT bool_and(is_owner) AND bool_or(is_recorded)
)
SELECT s.stratum, l.athlete_no, l.is_owner, l.is_recorded
FROM listed AS l
JOIN strata AS s
    ON s.session_no = l.session_no AND s.position_group IS NOT DISTINCT FROM l.position_group
ORDER BY s.stratum, l.athlete_no;
