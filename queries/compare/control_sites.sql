-- question: In the sessions of the comparison, who was hurt at sites that no guard in scope covers,
--   and how many of the studied sites of theirs were guarded and bare then?
-- works on: scope
-- scope: groups
-- grain: one row per athlete, session and body area hurt there, and stratum (studied body area, and
--   the athlete's position group) in which both groups were exposed; the first injury of a site and
--   season only, whether a guard of another kind was worn there or not
-- columns:
--   nearness VARCHAR            far from every area covered, or neighbouring one
--   area VARCHAR                body area that was hurt
--   athlete VARCHAR             the athlete's key
--   session VARCHAR             the session's key
--   injuries BIGINT             sides that were hurt: 1 or 2
--   sites_guarded BIGINT        studied sites of the athlete, guard worn
--   sites_unguarded BIGINT      studied sites of the athlete, bare
--   exposures_guarded BIGINT    site-exposures of the stratum, guard worn
--   exposures_unguarded BIGINT  site-exposures of the stratum, bare
WITH hurt AS MATERIALIZED (
    SELECT DISTINCT
        i.nearness, i.area, i.side, i.athlete_no, e.session_no, e.position_group, e.starts_at,
        e.played_on, s.begins_on
    FROM all_injuries AS i
    JOIN scoped_exposures AS e USING (session_no, athlete_no)
    JOIN scoped_sessions AS s USING (session_no)
    WHERE i.nearness IS NOT NULL AND ($outcome = 'any' OR i.time_loss)
),
counted AS MATERIALIZED (
    SELECT
        h.nearness, h.area, h.athlete_no, h.session_no, h.position_group, count(*) AS injuries
    FROM hurt AS h
    ANTI JOIN all_injuries AS r
        ON r.athlete_no = h.athlete_no AND r.area = h.area AND r.side = h.side
        AND r.occurred_on >= h.begins_on
        AND coalesce(r.starts_at < h.starts_at, r.occurred_on < h.played_on)
    GROUP BY h.nearness, h.area, h.athlete_no, h.session_no, h.position_group
),
own AS MATERIALIZED (
    SELECT
        session_no, athlete_no, position_group, area,
        sum(t1)::BIGINT AS t1,
        sum(t0)::BIGINT AS t0
    FROM athlete_pieces($purpose)
    WHERE session_no IN (SELECT session_no FROM counted)
    GROUP BY session_no, athlete_no, position_group, area
    HAVING sum(t1) + sum(t0) > 0
),
strata AS (
    SELECT session_no, position_group, area, sum(t1)::BIGINT AS t1, sum(t0)::BIGINT AS t0
    FROM own
    GROUP BY session_no, position_group, area
    HAVING sum(t1) > 0 AND sum(t0) > 0
)
SELECT
    c.nearness, c.area, a.athlete, n.session, c.injuries,
    o.t1 AS sites_guarded,
    o.t0 AS sites_unguarded,
    s.t1 AS exposures_guarded,
    s.t0 AS exposures_unguarded
FROM counted AS c
JOIN own AS o ON o.session_no = c.session_no AND o.athlete_no = c.athlete_no
JOIN strata AS s
    ON s.session_no = c.session_no AND s.area = o.area
    AND s.position_group IS NOT DISTINCT FROM c.position_group
JOIN store.athletes AS a ON a.athlete_no = c.athlete_no
JOIN scoped_sessions AS n ON n.session_no = c.session_no
ORDER BY c.nearness, c.session_no, a.athlete, c.area, o.area;
