-- Guards worn in sessions of the scope, with how the athlete took part in the session.
CREATE OR REPLACE TEMP TABLE checked_wear AS
SELECT w.session_no, w.guard_no, s.starts_at, a.part
FROM store.wear AS w
JOIN checked_sessions AS s USING (session_no)
JOIN store.guards AS g USING (guard_no)
LEFT JOIN store.attendance AS a
    ON a.session_no = w.session_no AND a.athlete_no = g.athlete_no
WHERE ($kinds IS NULL OR list_contains($kinds, g.kind))
  AND ($sides IS NULL OR g.side = 'both' OR list_contains($sides, g.side::VARCHAR))
  AND ($areas IS NULL OR g.kind IN (
      SELECT kind FROM store.kinds WHERE list_contains($areas, area::VARCHAR)
  ))
  AND ($position_groups IS NULL OR EXISTS (
      SELECT 1
      FROM checked_places AS p
      WHERE p.athlete_no = g.athlete_no AND p.team = s.team AND p.season = s.season
  ));

-- Sessions of the scope in which no guard at all is recorded as worn, with how many took part whose
-- guard had come and was not retired.
CREATE OR REPLACE TEMP TABLE checked_unworn AS
SELECT
    s.session_no,
    any_value(s.session) AS session,
    any_value(s.department) AS department,
    any_value(s.team) AS team,
    any_value(s.season) AS season,
    any_value(s.setting) AS setting,
    any_value(s.played_on) AS played_on,
    count(DISTINCT a.athlete_no) AS could_wear
FROM checked_sessions AS s
ANTI JOIN store.wear AS w USING (session_no)
JOIN store.attendance AS a ON a.session_no = s.session_no AND a.part <> 'out'
JOIN store.guards AS g ON g.athlete_no = a.athlete_no
JOIN checked_times AS t ON t.guard_no = g.guard_no
    AND t.ready_at < s.starts_at
    AND (t.over_at IS NULL OR t.over_at > s.starts_at)
WHERE s.recorded > 0
  AND ($kinds IS NULL OR list_contains($kinds, g.kind))
GROUP BY s.session_no;
