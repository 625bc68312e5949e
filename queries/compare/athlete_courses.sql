-- question: From the day its guard was asked for, how much was each injured site exposed guarded
--   and bare, in which kinds of session, and how often was it injured, repeats counted?
-- works on: scope
-- scope: sites
-- grain: one row per athlete, site, sport, position group, setting and two-week block, for sites
--   with a preventive guard and an injury after it was asked for; without any stage recorded the
--   guard counts as asked for when it was first worn
-- columns:
--   athlete_no INTEGER         the athlete's number
--   athlete VARCHAR            the athlete's key
--   area VARCHAR               body area
--   side VARCHAR               left, right, midline
--   sport VARCHAR              as in teams
--   position_group VARCHAR     as in roster; NULL where not recorded
--   setting VARCHAR            game or practice
--   block BIGINT               two-week block
--   asked_after BOOLEAN        there was an injury to the site before that day
--   injuries_guarded BIGINT    site-exposures with an injury, guard worn
--   injuries_unguarded BIGINT  site-exposures with an injury, bare
--   exposures_guarded BIGINT   site-exposures, guard worn
--   exposures_unguarded BIGINT site-exposures, bare
WITH marked AS (SELECT * FROM marked_sites('through')),
guards AS (
    SELECT g.guard_no, g.athlete_no, g.area, g.side, z.time_zone
    FROM site_guards AS g
    JOIN athlete_zones() AS z USING (athlete_no)
    WHERE g.purpose = 'preventive'
      AND g.athlete_no IN (SELECT athlete_no FROM scoped_exposures)
),
heard_of AS (
    SELECT g.*, q.reached_at AS heard_at, 1 AS choice
    FROM guards AS g
    JOIN store.stages AS q USING (guard_no)
    WHERE (q.reached_at AT TIME ZONE g.time_zone)::DATE < $until
    UNION ALL
    SELECT g.*, s.starts_at, 2
    FROM guards AS g
    JOIN worn_guards() AS w USING (guard_no)
    JOIN store.sessions AS s USING (session_no)
    WHERE s.played_on < $until
),
asked AS (
    SELECT athlete_no, area, side, time_zone, min_by(heard_at, (choice, heard_at)) AS asked_at
    FROM heard_of
    GROUP BY guard_no, athlete_no, area, side, time_zone
),
followed AS (
    SELECT
        q.athlete_no, q.area, q.side, min(q.asked_at) AS asked_at,
        coalesce(
            min(f.first_at) < min(q.asked_at)
            OR min(f.first_on) < min(q.asked_at AT TIME ZONE q.time_zone)::DATE,
            false
        ) AS asked_after
    FROM asked AS q
    LEFT JOIN scoped_first_injuries AS f USING (athlete_no, area, side)
    GROUP BY q.athlete_no, q.area, q.side
),
hurt AS (
    SELECT DISTINCT w.*
    FROM followed AS w
    JOIN marked AS m USING (athlete_no, area, side)
    JOIN store.sessions AS s USING (session_no)
    WHERE m.injured AND m.set_aside IS NULL AND s.starts_at >= w.asked_at
)
SELECT
    e.athlete_no, n.athlete, h.area, h.side, s.sport, e.position_group, s.setting, s.block,
    bool_or(h.asked_after) AS asked_after,
    count(*) FILTER (m.guarded AND m.injured) AS injuries_guarded,
    count(*) FILTER (m.injured AND NOT m.guarded) AS injuries_unguarded,
    count(*) FILTER (m.guarded) AS exposures_guarded,
    count(*) FILTER (NOT coalesce(m.guarded, false)) AS exposures_unguarded
FROM scoped_exposures AS e
JOIN hurt AS h ON h.athlete_no = e.athlete_no AND e.starts_at >= h.asked_at
JOIN store.athletes AS n ON n.athlete_no = e.athlete_no
JOIN scoped_sessions AS s
    ON s.session_no = e.session_no
LEFT JOIN marked AS m
    ON m.session_no = e.session_no AND m.athlete_no = e.athlete_no
    AND m.area = h.area AND m.side = h.side
WHERE m.set_aside IS NULL
GROUP BY e.athlete_no, n.athlete, h.area, h.side, s.sport, e.position_group, s.setting, s.block
ORDER BY e.athlete_no, h.area, h.side, s.sport, e.position_group NULLS LAST, s.setting, s.block;
