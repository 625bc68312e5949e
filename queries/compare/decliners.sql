-- question: In the same sessions, how often were guarded sites injured, and bare sites of athletes
--   who had been offered such a guard and declined?
-- works on: scope
-- scope: groups
-- grain: one row per session, position group and body area with an injury, and one row (stratum
--   NULL) that sums those without any
-- columns:
--   stratum VARCHAR             body area, session and position group; NULL for the summed rest
--   injuries_guarded BIGINT     site-exposures with an injury, guard worn
--   injuries_unguarded BIGINT   bare site-exposures of decliners with an injury
--   exposures_guarded BIGINT    site-exposures, guard worn
--   exposures_unguarded BIGINT  bare site-exposures of decliners, from the day of the offer on
--   strata BIGINT               strata this row stands for
WITH marked AS (SELECT * FROM marked_sites($purpose)),
declined AS (
    SELECT o.athlete_no, k.area::VARCHAR AS area, min(o.offered_on) AS offered_on
    FROM store.offers AS o
    JOIN store.kinds AS k USING (kind)
    WHERE o.answer = 'declined' AND o.offered_on < $until AND list_contains($kinds, o.kind)
    GROUP BY o.athlete_no, k.area
),
pieces AS (
    SELECT session_no, position_group, area, injured::INTEGER AS a, 0 AS b, 1 AS t1, 0 AS t0
    FROM marked
    WHERE guarded AND set_aside IS NULL
    UNION ALL
    SELECT
        e.session_no, e.position_group, x.area, 0, coalesce(m.injured, false)::INTEGER, 0, 1
    FROM scoped_exposures AS e
    JOIN declined AS d ON d.athlete_no = e.athlete_no AND e.played_on >= d.offered_on
    JOIN scoped_sites AS x ON x.area = d.area
    LEFT JOIN marked AS m
        ON m.session_no = e.session_no AND m.athlete_no = e.athlete_no
        AND m.area = x.area AND m.side = x.side
    WHERE CASE
        WHEN m.session_no IS NOT NULL THEN m.set_aside IS NULL AND NOT m.guarded
        ELSE $purpose <> 'return'
    END
),
cells AS (
    SELECT
        session_no, position_group, area,
        sum(a) AS a, sum(b) AS b, sum(t1) AS t1, sum(t0) AS t0
    FROM pieces
    GROUP BY session_no, position_group, area
),
named AS (
    SELECT
        CASE WHEN a + b > 0 THEN concat_ws(
            ' · ', c.area, s.session, coalesce(c.position_group, 'position not recorded')
        ) END AS stratum,
        a, b, t1, t0
    FROM cells AS c
    JOIN scoped_sessions AS s USING (session_no)
)
SELECT
    stratum,
    sum(a)::BIGINT AS injuries_guarded,
    sum(b)::BIGINT AS injuries_unguarded,
    sum(t1)::BIGINT AS exposures_guarded,
    sum(t0)::BIGINT AS exposures_unguarded,
    count(*) AS strata
FROM named
GROUP BY stratum
ORDER BY stratum NULLS LAST;
