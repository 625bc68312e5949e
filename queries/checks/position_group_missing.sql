-- question: Who took part without a position group on the roster?
-- works on: checks
-- scope: checks
-- grain: one row per athlete, team and season
-- columns: doubts
WITH playing AS (
    SELECT DISTINCT a.athlete_no, s.team, s.season
    FROM checked_sessions AS s
    JOIN store.attendance AS a USING (session_no)
    JOIN checked_places AS p
        ON p.athlete_no = a.athlete_no AND p.team = s.team AND p.season = s.season
    WHERE a.part <> 'out' AND p.position_group IS NULL
)
SELECT
    p.department,
    p.team,
    p.athlete,
    p.name,
    NULL::DATE AS dated_on,
    'roster' AS table_name,
    p.athlete AS key,
    p.season || ': no position group' AS detail
FROM checked_places AS p
JOIN playing AS q USING (athlete_no, team, season)
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
