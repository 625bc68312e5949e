-- question: How often were guarded and unguarded sites injured, stratum by stratum?
-- params:
--   seasons VARCHAR[]          seasons of the scope, NULL for all (so too the lists below)
--   until DATE                 first day not yet known (the day after "through")
--   departments VARCHAR[]      departments
--   teams VARCHAR[]            teams
--   sports VARCHAR[]           sports
--   sexes VARCHAR[]            sexes of the teams
--   settings VARCHAR[]         game, practice
--   position_groups VARCHAR[]  position groups, as in roster
--   kinds VARCHAR[]            guard kinds; never NULL
--   areas VARCHAR[]            body areas, of those the kinds cover
--   sides VARCHAR[]            sides
--   purpose VARCHAR            preventive, return or all
--   outcome VARCHAR            time loss or any
-- grain: one row per comparison and stratum that holds an injury, and one row per comparison
--   (stratum NULL) that sums the strata without any
-- columns:
--   comparison VARCHAR          crude, alike athletes, same session
--   stratum VARCHAR             the stratum in words; NULL for the summed rest
--   injuries_guarded BIGINT     site-exposures with an injury, guard worn
--   injuries_unguarded BIGINT   site-exposures with an injury, bare
--   exposures_guarded BIGINT    site-exposures, guard worn
--   exposures_unguarded BIGINT  site-exposures, bare
--   strata BIGINT               strata this row stands for
WITH cells AS (
    SELECT
        session_no, session, sport, sex, season, setting, block, position_group, area,
        count(*) FILTER (guarded AND injured) AS a,
        count(*) FILTER (NOT guarded AND injured) AS b,
        count(*) FILTER (guarded) AS t1,
        count(*) FILTER (NOT guarded) AS t0
    FROM site_exposures(
        $seasons, $until, $departments, $teams, $sports, $sexes, $settings, $position_groups,
        $kinds, $areas, $sides, $purpose, $outcome
    )
    WHERE set_aside IS NULL
    GROUP BY ALL
),
keyed AS (
    SELECT 'crude' AS comparison, 'all' AS stratum, a, b, t1, t0 FROM cells
    UNION ALL
    SELECT
        'alike athletes',
        concat_ws(
            ' · ', area, sport, sex, coalesce(position_group, 'position not recorded'), setting,
            season, 'two weeks from ' || (DATE '2000-01-03' + (block * 14)::INTEGER)::VARCHAR
        ),
        a, b, t1, t0
    FROM cells
    UNION ALL
    SELECT
        'same session',
        concat_ws(' · ', area, session, coalesce(position_group, 'position not recorded')),
        a, b, t1, t0
    FROM cells
),
summed AS (
    SELECT
        comparison, stratum,
        sum(a) AS a, sum(b) AS b, sum(t1) AS t1, sum(t0) AS t0
    FROM keyed
    GROUP BY comparison, stratum
)
SELECT
    comparison,
    CASE WHEN a + b > 0 THEN stratum END AS stratum,
    sum(a)::BIGINT AS injuries_guarded,
    sum(b)::BIGINT AS injuries_unguarded,
    sum(t1)::BIGINT AS exposures_guarded,
    sum(t0)::BIGINT AS exposures_unguarded,
    count(*) AS strata
FROM summed
GROUP BY comparison, CASE WHEN a + b > 0 THEN stratum END
ORDER BY comparison, stratum NULLS LAST;
