-- question: Which injuries of rostered athletes are known, and how many days did each cost?
-- scope: athletes
-- grain: one row per injury of an athlete with a place on a roster of the scope
-- columns:
--   injury VARCHAR       key
--   athlete VARCHAR      key
--   area VARCHAR         body area
--   side VARCHAR         left, right, both, midline
--   occurred_on DATE     day of onset
--   returned_on DATE     day of the return, once known; NULL: open
--   days_lost BIGINT     full days between onset and return; while open, up to the last day known
--   is_open BOOLEAN      no return is known
--   in_session VARCHAR   yes, or no session recorded, or not recorded as taking part in it
--   belongs VARCHAR      yes, or another team or season, or outside the season
WITH places AS (
    SELECT r.athlete_no, r.team, r.season, s.first_on, s.last_on
    FROM asked_places($seasons, $departments, $teams, $sports, $sexes, $position_groups) AS r
    LEFT JOIN (
        SELECT team, season, min(played_on) AS first_on, max(played_on) AS last_on
        FROM store.sessions
        GROUP BY team, season
    ) AS s USING (team, season)
),
known AS (
    SELECT i.*, s.team, s.season, coalesce(returned_on >= $until, true) AS is_open
    FROM store.injuries AS i
    LEFT JOIN store.sessions AS s USING (session_no)
    WHERE coalesce(i.reported_on, i.occurred_on) < $until AND i.occurred_on < $until
),
placed AS (
    SELECT
        i.injury,
        bool_or(
            CASE
                WHEN i.session_no IS NOT NULL THEN i.team = p.team AND i.season = p.season
                ELSE i.occurred_on BETWEEN p.first_on AND p.last_on
            END
        ) AS belongs
    FROM known AS i
    JOIN places AS p USING (athlete_no)
    GROUP BY i.injury
)
SELECT
    i.injury, a.athlete,
    i.area::VARCHAR AS area,
    i.side::VARCHAR AS side,
    i.occurred_on,
    CASE WHEN NOT i.is_open THEN i.returned_on END AS returned_on,
    days_lost(i.occurred_on, i.returned_on, $until) AS days_lost,
    i.is_open,
    CASE
        WHEN i.session_no IS NULL THEN 'no session recorded'
        WHEN t.part <> 'out' THEN 'yes'
        ELSE 'not recorded as taking part in it'
    END AS in_session,
    CASE
        WHEN p.belongs THEN 'yes'
        WHEN i.session_no IS NOT NULL THEN 'another team or season'
        ELSE 'outside the season'
    END AS belongs
FROM known AS i
JOIN placed AS p USING (injury)
JOIN store.athletes AS a USING (athlete_no)
LEFT JOIN store.attendance AS t
    ON t.session_no = i.session_no AND t.athlete_no = i.athlete_no
ORDER BY i.occurred_on, i.injury;
