-- Injuries known by `until`, each with the team it belongs to: that of its session, else that of the
-- athlete's place on that day. With kinds, those to the sites studied; without, all.
CREATE OR REPLACE TEMP TABLE checked_injuries AS
WITH known AS (
    SELECT
        injury,
        athlete_no,
        occurred_on,
        session_no,
        area::VARCHAR AS area,
        side::VARCHAR AS side,
        CASE WHEN returned_on < $until THEN returned_on END AS returned_on
    FROM store.injuries
    WHERE coalesce(reported_on, occurred_on) < $until
      AND ($kinds IS NULL OR area IN (
          SELECT area FROM store.kinds WHERE list_contains($kinds, kind)
      ))
      AND ($areas IS NULL OR list_contains($areas, area::VARCHAR))
      AND ($sides IS NULL OR side = 'both' OR list_contains($sides, side::VARCHAR))
)
SELECT
    i.*,
    n.athlete,
    coalesce(r.name, n.athlete) AS name,
    s.department,
    s.team,
    s.session,
    s.starts_at,
    s.played_on
FROM known AS i
JOIN checked_sessions AS s USING (session_no)
JOIN store.athletes AS n USING (athlete_no)
LEFT JOIN store.roster AS r
    ON r.athlete_no = i.athlete_no AND r.team = s.team AND r.season = s.season
WHERE $position_groups IS NULL OR list_contains($position_groups, r.position_group)
UNION ALL
SELECT i.*, d.athlete, d.name, d.department, d.team, NULL, NULL, NULL
FROM known AS i
JOIN checked_days AS d ON d.what = 'injury' AND d.key = i.injury;
