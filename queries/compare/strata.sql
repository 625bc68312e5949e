-- question: How often were guarded and unguarded sites injured, stratum by stratum?
-- works on: scope
-- scope: groups
-- grain: one row per comparison and stratum that holds an injury, and one row per comparison,
--   for same session per body area (stratum NULL), that sums the strata without any
-- columns:
--   comparison VARCHAR          crude, alike athletes, same session
--   stratum VARCHAR             the stratum in words; NULL for the summed rest
--   injuries_guarded BIGINT     site-exposures with an injury, guard worn
--   injuries_unguarded BIGINT   site-exposures with an injury, bare
--   exposures_guarded BIGINT    site-exposures, guard worn
--   exposures_unguarded BIGINT  site-exposures, bare
--   strata BIGINT               strata this row stands for
--   played_on DATE              same session: its day; else NULL
--   area VARCHAR                same session: the body area; else NULL
WITH cells AS (SELECT * FROM exposure_cells($purpose)),
alike AS (
    SELECT
        c.area, s.sport, s.sex, c.position_group, s.setting, s.season, s.block,
        sum(c.a) AS a, sum(c.b) AS b, sum(c.t1) AS t1, sum(c.t0) AS t0
    FROM cells AS c
    JOIN scoped_sessions AS s USING (session_no)
    GROUP BY c.area, s.sport, s.sex, c.position_group, s.setting, s.season, s.block
),
strata AS (
    SELECT
        'crude' AS comparison,
        CASE WHEN sum(a + b) > 0 THEN 'all' END AS stratum,
        sum(a) AS a, sum(b) AS b, sum(t1) AS t1, sum(t0) AS t0,
        1 AS strata, NULL::DATE AS played_on, NULL AS area
    FROM cells
    HAVING count(*) > 0
    UNION ALL
    SELECT
        'alike athletes',
        CASE WHEN a + b > 0 THEN concat_ws(
            ' · ', area, sport, sex, coalesce(position_group, 'position not recorded'), setting,
            season, 'two weeks from ' || (DATE '2000-01-03' + (block * 14)::INTEGER)::VARCHAR
        ) END,
        a, b, t1, t0, 1, NULL, NULL
    FROM alike
    UNION ALL
    SELECT
        'same session',
        concat_ws(' · ', c.area, s.session, coalesce(position_group, 'position not recorded')),
        a, b, t1, t0, 1, s.played_on, c.area
    FROM cells AS c
    JOIN scoped_sessions AS s USING (session_no)
    WHERE a + b > 0
    UNION ALL
    SELECT 'same session', NULL, 0, 0, sum(t1), sum(t0), count(*), NULL, area
    FROM cells
    WHERE a + b = 0
    GROUP BY area
)
SELECT
    comparison, stratum,
    sum(a)::BIGINT AS injuries_guarded,
    sum(b)::BIGINT AS injuries_unguarded,
    sum(t1)::BIGINT AS exposures_guarded,
    sum(t0)::BIGINT AS exposures_unguarded,
    sum(strata)::BIGINT AS strata,
    any_value(played_on) AS played_on,
    area
FROM strata
GROUP BY comparison, stratum, area
ORDER BY comparison, stratum NULLS LAST, area;
