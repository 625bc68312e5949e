-- question: What does each athlete add to each stratum that holds an injury?
-- works on: scope
-- scope: groups
-- grain: one row per comparison, stratum with an injury, and athlete exposed in it
-- columns:
--   comparison VARCHAR          crude, alike athletes, same session
--   stratum BIGINT              number of the stratum within its comparison
--   athlete_no INTEGER          the athlete's number
--   injuries_guarded BIGINT     site-exposures with an injury, guard worn
--   injuries_unguarded BIGINT   site-exposures with an injury, bare
--   exposures_guarded BIGINT    site-exposures, guard worn
--   exposures_unguarded BIGINT  site-exposures, bare
WITH pieces AS (SELECT * FROM athlete_pieces($purpose)),
described AS (
    SELECT p.*, s.sport, s.sex, s.setting, s.season, s.block
    FROM pieces AS p
    JOIN scoped_sessions AS s USING (session_no)
),
hurt AS (
    SELECT DISTINCT
        m.area, m.session_no, m.position_group, s.sport, s.sex, s.setting, s.season, s.block
    FROM marked_sites($purpose) AS m
    JOIN scoped_sessions AS s USING (session_no)
    WHERE m.injured AND m.set_aside IS NULL
),
alike_hurt AS (
    SELECT
        area, sport, sex, position_group, setting, season, block,
        row_number() OVER (
            ORDER BY area, sport, sex, position_group, setting, season, block
        ) AS stratum
    FROM (
        SELECT DISTINCT area, sport, sex, position_group, setting, season, block FROM hurt
    )
),
session_hurt AS (
    SELECT
        area, session_no, position_group,
        row_number() OVER (ORDER BY area, session_no, position_group) AS stratum
    FROM hurt
),
keyed AS (
    SELECT 'crude' AS comparison, 0 AS stratum, athlete_no, a, b, t1, t0 FROM pieces
    UNION ALL
    SELECT 'alike athletes', h.stratum, d.athlete_no, d.a, d.b, d.t1, d.t0
    FROM described AS d
    JOIN alike_hurt AS h
        ON h.area = d.area AND h.sport = d.sport AND h.sex = d.sex AND h.setting = d.setting
        AND h.season = d.season AND h.block = d.block
        AND h.position_group IS NOT DISTINCT FROM d.position_group
    UNION ALL
    SELECT 'same session', h.stratum, p.athlete_no, p.a, p.b, p.t1, p.t0
    FROM pieces AS p
    JOIN session_hurt AS h
        ON h.area = p.area AND h.session_no = p.session_no
        AND h.position_group IS NOT DISTINCT FROM p.position_group
)
SELECT
    comparison, stratum, athlete_no,
    sum(a)::BIGINT AS injuries_guarded,
    sum(b)::BIGINT AS injuries_unguarded,
    sum(t1)::BIGINT AS exposures_guarded,
    sum(t0)::BIGINT AS exposures_unguarded
FROM keyed
GROUP BY comparison, stratum, athlete_no
HAVING sum(t1) + sum(t0) > 0
ORDER BY comparison, stratum, athlete_no;
