-- The exposures of drawn sites after the draw, up to the first injury there since: the turn had
-- come by then (`is_come`) or had not, the site was injured by the outcome asked for or not, a
-- preventive guard was worn at it or not; NULL where nobody recorded whether.
CREATE OR REPLACE TEMP MACRO turn_exposures(until, kinds) AS TABLE
WITH drawn AS (
    SELECT d.*
    FROM drawn_sites(until, kinds) AS d
    JOIN scoped_sites AS x ON x.area = d.area AND x.side = d.side
),
hurt AS (
    SELECT
        d.athlete_no, d.area, d.side,
        min(i.starts_at) AS hurt_at,
        min(i.occurred_on) FILTER (i.session_no IS NULL) AS hurt_on
    FROM drawn AS d
    JOIN scoped_injuries AS i USING (athlete_no, area, side)
    WHERE i.occurred_on > d.drawn_on
    GROUP BY d.athlete_no, d.area, d.side
)
SELECT
    e.session_no, e.athlete_no, e.played_on, e.position_group, d.draw, d.kind, d.area, d.side,
    e.played_on >= d.come_on AS is_come,
    coalesce(m.injured, false) AS injured,
    CASE WHEN m.wear = 'not known' THEN NULL ELSE coalesce(m.preventive, false) END AS guarded
FROM scoped_exposures AS e
JOIN drawn AS d ON d.athlete_no = e.athlete_no AND e.played_on > d.drawn_on
LEFT JOIN hurt AS h
    ON h.athlete_no = d.athlete_no AND h.area = d.area AND h.side = d.side
LEFT JOIN scoped_marks AS m
    ON m.session_no = e.session_no AND m.athlete_no = e.athlete_no
    AND m.area = d.area AND m.side = d.side
WHERE coalesce(e.starts_at <= h.hurt_at, true)
  AND coalesce(e.played_on <= h.hurt_on, true);
