-- question: Whose attendance in one session is to be written down, and what is known of them?
-- scope: log
-- grain: one row per athlete on the team's roster that day, or with attendance in the session
-- columns:
--   athlete VARCHAR      key
--   name VARCHAR         as in roster; the key of an athlete on no roster
--   jersey VARCHAR       NULL: not given, or not on the team's roster
--   is_listed BOOLEAN    on the team's roster that day
--   last_part VARCHAR    part in the last earlier session of the team recorded for them; NULL: none
--   last_reason VARCHAR  reason recorded with it; NULL: none
--   last_on DATE         day of that session
--   open_area VARCHAR    body area of an injury open that day, the first by onset; NULL: none
--   open_side VARCHAR    its side
--   open_on DATE         its day of onset
--   is_back BOOLEAN      took part again after the onset of every open injury; NULL: none is open
--   part VARCHAR         recorded for this session; NULL: nothing is (so too below)
--   reason VARCHAR       recorded; NULL also when none was given
--   minutes DOUBLE       recorded, minutes
--   plays INTEGER        recorded
WITH here AS (
    SELECT a.athlete_no, a.part, a.reason, a.minutes, a.plays
    FROM store.attendance AS a
    JOIN store.sessions AS s USING (session_no)
    WHERE s.session = $session
),
squad AS (
    SELECT athlete_no, name, jersey
    FROM store.roster
    WHERE team = $team AND season = $season
      AND is_listed(joined_on, left_on, $day)
),
people AS (
    SELECT athlete_no FROM squad
    UNION
    SELECT athlete_no FROM here
),
lately AS (
    SELECT
        a.athlete_no,
        arg_max(a.part, (s.starts_at, s.session_no)) AS part,
        arg_max(coalesce(a.reason::VARCHAR, ''), (s.starts_at, s.session_no)) AS reason,
        max(s.played_on) AS played_on,
        max(s.played_on) FILTER (a.part <> 'out') AS took_part_on
    FROM store.sessions AS s
    JOIN store.attendance AS a USING (session_no)
    SEMI JOIN people AS p ON p.athlete_no = a.athlete_no
    WHERE s.team = $team AND s.season = $season
      AND s.starts_at < $starts_at AND s.session IS DISTINCT FROM $session
    GROUP BY a.athlete_no
),
hurt AS (
    SELECT
        athlete_no,
        min_by(area, (occurred_on, injury)) AS area,
        min_by(side, (occurred_on, injury)) AS side,
        min(occurred_on) AS first_on,
        max(occurred_on) AS last_on
    FROM store.injuries
    SEMI JOIN people USING (athlete_no)
    WHERE occurred_on < $day AND coalesce(returned_on > $day, true)
    GROUP BY athlete_no
)
SELECT
    a.athlete,
    coalesce(s.name, a.name) AS name,
    s.jersey,
    s.athlete_no IS NOT NULL AS is_listed,
    l.part::VARCHAR AS last_part,
    nullif(l.reason, '') AS last_reason,
    l.played_on AS last_on,
    h.area::VARCHAR AS open_area,
    h.side::VARCHAR AS open_side,
    h.first_on AS open_on,
    CASE
        WHEN h.athlete_no IS NOT NULL
        THEN l.part <> 'out' AND coalesce(l.took_part_on > h.last_on, false)
    END AS is_back,
    w.part::VARCHAR AS part,
    w.reason::VARCHAR AS reason,
    w.minutes, w.plays
FROM people AS p
JOIN athlete_names() AS a USING (athlete_no)
LEFT JOIN squad AS s USING (athlete_no)
LEFT JOIN lately AS l USING (athlete_no)
LEFT JOIN hurt AS h USING (athlete_no)
LEFT JOIN here AS w USING (athlete_no)
ORDER BY
    try_cast(s.jersey AS INTEGER) NULLS LAST, s.jersey NULLS LAST, coalesce(s.name, a.name),
    a.athlete;
