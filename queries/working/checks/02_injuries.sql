-- Injuries known by `until`, each with the team it belongs to: that of its session, else that of
-- the athlete's place on that day. With kinds, those to the sites studied; without, all. `site` is its
-- area and side in words.
CREATE OR REPLACE TEMP TABLE checked_injuries AS
WITH known AS (
    SELECT
        athlete_no, injury, occurred_on, session_no,
        area::VARCHAR AS area,
        side::VARCHAR AS side,
        concat_ws(', ', area, side) AS site,
        CASE WHEN returned_on < $until THEN returned_on END AS returned_on,
        was_on
    FROM store.injuries
    WHERE coalesce(reported_on, occurred_on) < $until
      AND ($kinds IS NULL OR area IN (
          SELECT area FROM store.kinds WHERE list_contains($kinds, kind)
      ))
      AND is_asked($areas, area::VARCHAR)
      AND is_asked_side($sides, side)
)
SELECT
    s.department, s.team, n.athlete, coalesce(r.name, n.athlete) AS name, i.*, s.session,
    s.starts_at, s.played_on
FROM known AS i
JOIN checked_sessions AS s USING (session_no)
JOIN store.athletes AS n USING (athlete_no)
LEFT JOIN store.roster AS r
    ON r.athlete_no = i.athlete_no AND r.team = s.team AND r.season = s.season
WHERE is_asked($position_groups, r.position_group)
UNION ALL
SELECT d.department, d.team, d.athlete, d.name, i.*, NULL, NULL, NULL
FROM known AS i
JOIN checked_days AS d ON d.what = 'injury' AND d.key = i.injury;

-- Sessions that the athlete took part in on the day of an injury for which none is recorded.
CREATE OR REPLACE TEMP MACRO suggested_sessions() AS TABLE
SELECT i.injury, s.session_no, s.session, s.starts_at
FROM checked_injuries AS i
JOIN store.attendance AS a ON a.athlete_no = i.athlete_no AND a.part <> 'out'
JOIN store.sessions AS s ON s.session_no = a.session_no AND s.played_on = i.occurred_on
WHERE i.session_no IS NULL;

-- How often the athlete took part in full after an injury, before the return or before `until`.
CREATE OR REPLACE TEMP MACRO played_in_full(until) AS TABLE
SELECT i.injury, count(*) AS sessions, min(s.played_on) AS first_on
FROM checked_injuries AS i
JOIN store.attendance AS a ON a.athlete_no = i.athlete_no AND a.part = 'full'
JOIN store.sessions AS s ON s.session_no = a.session_no
WHERE s.played_on > i.occurred_on AND s.played_on < coalesce(i.returned_on, until)
GROUP BY i.injury;
