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
WITH owners AS (
    SELECT DISTINCT l.session_no, l.athlete_no
    FROM listed_athletes AS l
    JOIN site_guards AS g USING (athlete_no)
    JOIN scoped_in_hand AS h USING (guard_no)
    WHERE l.setting = 'practice'
      AND h.in_hand_at <= l.starts_at
      AND coalesce(h.over_at > l.starts_at, true)
      AND ($purpose = 'all' OR g.purpose = $purpose)
),
listed AS MATERIALIZED (
    SELECT
        l.session_no, l.position_group, l.athlete_no, l.is_recorded,
        o.athlete_no IS NOT NULL AS is_owner
    FROM listed_athletes AS l
    LEFT JOIN owners AS o USING (session_no, athlete_no)
    WHERE l.setting = 'practice'
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
