-- What the data checks look at, worked out once for all of them: sessions and roster places of the
-- scope. Parameters as in the checks.

-- Sessions known by `until`, with the rows of attendance that each has.
CREATE OR REPLACE TEMP TABLE checked_sessions AS
SELECT
    s.session_no,
    s.session,
    s.team,
    s.department,
    s.season,
    s.starts_at,
    s.played_on,
    s.setting,
    coalesce(a.recorded, 0) AS recorded,
    coalesce(a.outs, 0) AS outs
FROM scope_sessions($seasons, $until, $departments, $teams, $sports, $sexes, $settings) AS s
LEFT JOIN (
    SELECT session_no, count(*) AS recorded, count(*) FILTER (part = 'out') AS outs
    FROM store.attendance
    GROUP BY session_no
) AS a USING (session_no);

-- Roster places, as far as the athlete had joined by then.
CREATE OR REPLACE TEMP TABLE checked_places AS
SELECT
    p.athlete_no,
    n.athlete,
    p.name,
    p.team,
    p.season,
    p.department,
    p.position_group,
    p.joined_on,
    p.left_on
FROM roster_places() AS p
JOIN store.athletes AS n USING (athlete_no)
WHERE (p.joined_on IS NULL OR p.joined_on < $until)
  AND ($seasons IS NULL OR list_contains($seasons, p.season))
  AND ($departments IS NULL OR list_contains($departments, p.department))
  AND ($teams IS NULL OR list_contains($teams, p.team))
  AND ($sports IS NULL OR list_contains($sports, p.sport))
  AND ($sexes IS NULL OR list_contains($sexes, p.sex))
  AND ($position_groups IS NULL OR list_contains($position_groups, p.position_group));

-- Who was on the roster of a session that has attendance, and has no row of it.
CREATE OR REPLACE TEMP TABLE checked_missing AS
SELECT s.session_no, p.athlete_no
FROM checked_sessions AS s
JOIN checked_places AS p
    ON p.team = s.team AND p.season = s.season
    AND (p.joined_on IS NULL OR p.joined_on <= s.played_on)
    AND (p.left_on IS NULL OR p.left_on >= s.played_on)
ANTI JOIN store.attendance AS a
    ON a.session_no = s.session_no AND a.athlete_no = p.athlete_no
WHERE s.recorded > 0;

-- The place that an injury without a session or an offer belongs to: of its athlete's places the
-- one whose season was the first to end after that day, else the last; it must be in the scope.
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
        ORDER BY
            coalesce(p.over_at::DATE < h.happened_on, true),
            abs(p.over_at::DATE - h.happened_on) NULLS LAST,
            p.team, p.season
    ) = 1
)
SELECT p.what, p.key, c.*
FROM placed AS p
JOIN checked_places AS c USING (athlete_no, team, season);
