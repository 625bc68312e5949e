-- Rows of wear in sessions of the scope, with how the athlete took part in the session.
CREATE OR REPLACE TEMP TABLE checked_wear_rows AS
SELECT
    s.department, s.team, n.athlete, coalesce(r.name, n.athlete) AS name, w.session_no, s.session,
    s.starts_at, s.played_on, w.guard_no, g.guard, a.part, w.worn, w.kept_on
FROM store.wear AS w
JOIN checked_sessions AS s USING (session_no)
JOIN store.guards AS g USING (guard_no)
JOIN store.athletes AS n USING (athlete_no)
LEFT JOIN store.roster AS r
    ON r.athlete_no = g.athlete_no AND r.team = s.team AND r.season = s.season
LEFT JOIN store.attendance AS a
    ON a.session_no = w.session_no AND a.athlete_no = g.athlete_no
WHERE is_asked($kinds, g.kind)
  AND is_asked_side($sides, g.side)
  AND ($areas IS NULL OR g.kind IN (
      SELECT kind FROM store.kinds WHERE list_contains($areas, area::VARCHAR)
  ))
  AND ($position_groups IS NULL OR EXISTS (
      SELECT 1
      FROM checked_places AS p
      WHERE p.athlete_no = g.athlete_no AND p.team = s.team AND p.season = s.season
  ));

-- Those of them in which the guard was worn.
CREATE OR REPLACE TEMP TABLE checked_wear AS
SELECT * FROM checked_wear_rows SEMI JOIN worn_guards() USING (session_no, guard_no);

-- Sessions of the scope in which no guard at all is recorded as worn, with how many took part whose
-- guard had come and was not retired.
CREATE OR REPLACE TEMP TABLE checked_unworn AS
SELECT s.*, any_value(c.wear) AS wear, count(DISTINCT a.athlete_no) AS could_wear
FROM checked_sessions AS s
JOIN wear_of_sessions() AS c USING (session_no)
ANTI JOIN worn_guards() AS w USING (session_no)
JOIN store.attendance AS a ON a.session_no = s.session_no AND a.part <> 'out'
JOIN store.guards AS g ON g.athlete_no = a.athlete_no
JOIN checked_times AS t ON t.guard_no = g.guard_no
    AND t.ready_at < s.starts_at
    AND coalesce(t.over_at > s.starts_at, true)
WHERE s.recorded > 0
  AND is_asked($kinds, g.kind)
GROUP BY ALL;
