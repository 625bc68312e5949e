-- What the data checks look at, worked out once for all of them: sessions and roster places of the
-- scope. Parameters as in the checks. Rows that a check may list begin with `department`, `team`,
-- `athlete` and `name`, as its columns do.

-- Sessions known by `until`, with the rows of attendance that each has.
CREATE OR REPLACE TEMP TABLE checked_sessions AS
SELECT
    s.department, s.team, NULL::VARCHAR AS athlete, NULL::VARCHAR AS name, s.session_no, s.session,
    s.season, s.starts_at, s.played_on, s.setting,
    coalesce(a.recorded, 0) AS recorded,
    coalesce(a.outs, 0) AS outs
FROM scope_sessions($seasons, $until, $departments, $teams, $sports, $sexes, $settings) AS s
LEFT JOIN (
    SELECT session_no, count(*) AS recorded, count(*) FILTER (part = 'out') AS outs
    FROM store.attendance
    GROUP BY session_no
) AS a USING (session_no);

-- Rows of attendance in these sessions, with the athlete's place on the team's roster, if any.
CREATE OR REPLACE TEMP MACRO checked_attendance(position_groups) AS TABLE
SELECT
    s.department, s.team, n.athlete, coalesce(r.name, n.athlete) AS name, s.session, s.season,
    s.played_on, a.part, a.minutes, a.plays, r.joined_on, r.left_on,
    r.athlete_no IS NOT NULL AS is_rostered
FROM store.attendance AS a
JOIN checked_sessions AS s USING (session_no)
JOIN store.athletes AS n USING (athlete_no)
LEFT JOIN store.roster AS r
    ON r.athlete_no = a.athlete_no AND r.team = s.team AND r.season = s.season
WHERE is_asked(position_groups, r.position_group);

-- Roster places, as far as the athlete had joined by then.
CREATE OR REPLACE TEMP TABLE checked_places AS
SELECT
    r.department, r.team, n.athlete, r.name, r.athlete_no, r.season, r.position_group, r.joined_on,
    r.left_on
FROM asked_places($seasons, $departments, $teams, $sports, $sexes, $position_groups) AS r
JOIN store.athletes AS n USING (athlete_no)
WHERE coalesce(r.joined_on < $until, true);

-- Who was on the roster of a session that has attendance, and has no row of it.
CREATE OR REPLACE TEMP TABLE checked_missing AS
SELECT s.session_no, p.athlete_no
FROM checked_sessions AS s
JOIN checked_places AS p
    ON p.team = s.team AND p.season = s.season
    AND is_listed(p.joined_on, p.left_on, s.played_on)
ANTI JOIN store.attendance AS a
    ON a.session_no = s.session_no AND a.athlete_no = p.athlete_no
WHERE s.recorded > 0;

-- The place that an injury without a session or an offer belongs to: of its athlete's places the
-- one whose season was the first to end after that day there, else the last; it must be in the scope.
CREATE OR REPLACE TEMP TABLE checked_days AS
WITH happened AS (
    SELECT 'injury' AS what, injury AS key, athlete_no, occurred_on AS happened_on
    FROM store.injuries
    WHERE session_no IS NULL AND coalesce(reported_on, occurred_on) < $until
    UNION ALL
    SELECT 'offer', offer, athlete_no, offered_on
    FROM store.offers
    WHERE offered_on < $until
),
placed AS (
    SELECT h.what, h.key, h.athlete_no, p.team, p.season
    FROM happened AS h
    JOIN roster_places() AS p USING (athlete_no)
    QUALIFY row_number() OVER (
        PARTITION BY h.what, h.key
        ORDER BY place_order(p.over_on < h.happened_on, p.over_at), p.team, p.season
    ) = 1
)
SELECT p.what, p.key, c.*
FROM placed AS p
JOIN checked_places AS c USING (athlete_no, team, season);
