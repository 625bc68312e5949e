-- question: In the strata of “same session” that hold an injury, how often were athletes bare who
--   had a fitted guard for the site, and how often were they hurt so?
-- works on: scope
-- scope: groups
-- grain: one row per body area, session and position group with an injury in which a guard owner
--   was bare
-- columns:
--   stratum VARCHAR      as in compare/strata
--   injuries BIGINT      bare site-exposures of owners with an injury
--   unrecorded BIGINT    of those, the ones that nobody recorded: that it was off is assumed
--   exposures BIGINT     bare site-exposures of owners
WITH marked AS (SELECT * FROM marked_sites($purpose)),
hurt AS (
    SELECT DISTINCT area, session_no, position_group
    FROM marked
    WHERE injured AND set_aside IS NULL
),
covering AS (
    SELECT * FROM site_guards WHERE $purpose = 'all' OR purpose = $purpose
),
owned AS (
    SELECT DISTINCT h.area, h.session_no, h.position_group, c.athlete_no, c.side
    FROM hurt AS h
    JOIN scoped_exposures AS e
        ON e.session_no = h.session_no
        AND e.position_group IS NOT DISTINCT FROM h.position_group
    JOIN covering AS c ON c.athlete_no = e.athlete_no AND c.area = h.area
    JOIN scoped_in_hand AS g USING (guard_no)
    WHERE g.in_hand_at <= e.starts_at AND coalesce(g.over_at > e.starts_at, true)
),
recorded AS (
    SELECT w.session_no, c.athlete_no, c.area, c.side
    FROM store.wear AS w
    JOIN covering AS c USING (guard_no)
    UNION
    SELECT session_no, athlete_no, area, side
    FROM scoped_injuries
    WHERE was_on IS NOT NULL
)
SELECT
    concat_ws(
        ' · ', o.area, s.session, coalesce(o.position_group, 'position not recorded')
    ) AS stratum,
    count(*) FILTER (m.injured) AS injuries,
    count(*) FILTER (m.injured AND r.session_no IS NULL AND s.wear = 'assumed') AS unrecorded,
    count(*) AS exposures
FROM owned AS o
JOIN scoped_sessions AS s USING (session_no)
LEFT JOIN marked AS m
    ON m.session_no = o.session_no AND m.athlete_no = o.athlete_no
    AND m.area = o.area AND m.side = o.side
LEFT JOIN recorded AS r
    ON r.session_no = o.session_no AND r.athlete_no = o.athlete_no
    AND r.area = o.area AND r.side = o.side
WHERE CASE
    WHEN m.session_no IS NOT NULL THEN m.set_aside IS NULL AND NOT m.guarded
    ELSE $purpose <> 'return'
END
GROUP BY o.area, s.session, o.position_group
ORDER BY stratum;
