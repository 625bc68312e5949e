-- Injuries that cost time at sites that guards of the scope cover, one row each, of athletes on a
-- roster of the scope then: in the season of their session, else in the one that holds the day.
-- `sides` are those of the scope. Followed to `ended_on`: the season's last session, leaving the
-- roster, or the last day known. `again_on`, within that, is the next injury there after the
-- return, by the outcome asked for; what happens there before the return is no second injury.
CREATE OR REPLACE TEMP TABLE returns AS
WITH places AS (
    SELECT
        r.athlete_no, r.name, r.team, r.season, r.department, r.left_on, s.first_on, s.last_on
    FROM asked_places($seasons, $departments, $teams, $sports, $sexes, $position_groups) AS r
    JOIN (
        SELECT team, season, min(played_on) AS first_on, max(played_on) AS last_on
        FROM store.sessions
        GROUP BY team, season
    ) AS s USING (team, season)
),
hurt AS (
    SELECT
        injury, athlete_no, session_no, occurred_on, area, is_open, returned_on,
        list(side ORDER BY side) AS sides
    FROM scoped_injuries
    WHERE time_loss AND occurred_on < $until
    GROUP BY ALL
),
placed AS (
    SELECT
        h.*, p.name, p.team, p.season, p.department,
        least($until::DATE - 1, p.last_on, p.left_on) AS ended_on
    FROM hurt AS h
    JOIN places AS p USING (athlete_no)
    LEFT JOIN store.sessions AS s ON s.session_no = h.session_no
    WHERE CASE
        WHEN s.session_no IS NULL THEN h.occurred_on BETWEEN p.first_on AND p.last_on
        ELSE s.team = p.team AND s.season = p.season
    END
    QUALIFY row_number() OVER (PARTITION BY h.injury ORDER BY p.team, p.season) = 1
)
SELECT
    p.*,
    min(i.occurred_on) AS again_on,
    min_by(i.session_no, (i.occurred_on, i.injury)) AS again_no
FROM placed AS p
LEFT JOIN scoped_injuries AS i
    ON i.athlete_no = p.athlete_no AND i.area = p.area AND list_contains(p.sides, i.side)
    AND i.occurred_on BETWEEN p.returned_on AND p.ended_on
    AND i.injury <> p.injury
    AND ($outcome = 'any' OR i.time_loss)
GROUP BY ALL;

-- Guards made for return, one row for each injury whose site they cover, with the days on which
-- they came into the athlete's hands and left them.
CREATE OR REPLACE TEMP TABLE return_guards AS
SELECT
    r.injury, h.guard_no,
    (h.in_hand_at AT TIME ZONE z.time_zone)::DATE AS in_hand_on,
    (h.over_at AT TIME ZONE z.time_zone)::DATE AS over_on
FROM returns AS r
JOIN scoped_in_hand AS h USING (athlete_no)
JOIN site_guards AS g USING (guard_no)
JOIN athlete_zones() AS z ON z.athlete_no = r.athlete_no
WHERE h.purpose = 'return' AND g.area = r.area AND list_contains(r.sides, g.side)
GROUP BY ALL
HAVING in_hand_on < $until;

-- The exposures of an injured site from the return until it is hurt again or follow-up ends, with
-- whether a guard made for return was worn there. One after two injuries is that of the later.
CREATE OR REPLACE TEMP TABLE return_exposures AS
SELECT
    r.injury, m.session_no, e.played_on, s.setting, s.starts_at, m.guarded, m.injured, m.side,
    m.set_aside IS NULL AS is_counted
FROM returns AS r
JOIN marked_sites('return') AS m
    ON m.athlete_no = r.athlete_no AND m.area = r.area AND list_contains(r.sides, m.side)
JOIN scoped_exposures AS e ON e.session_no = m.session_no AND e.athlete_no = m.athlete_no
JOIN scoped_sessions AS s ON s.session_no = m.session_no
WHERE e.played_on BETWEEN r.returned_on AND coalesce(r.again_on, r.ended_on)
QUALIFY row_number() OVER (
    PARTITION BY m.session_no, m.athlete_no, r.area, m.side ORDER BY r.occurred_on DESC, r.injury
) = 1;
