-- question: Which teams seem to record only those who took part?
-- works on: checks
-- scope: checks
-- grain: one row per team and season with five sessions recorded, nobody ever out, and somebody
--   missing
-- columns: doubts
WITH never_out AS (
    SELECT
        department, team, season,
        count(*) AS sessions,
        sum(recorded)::BIGINT AS recorded,
        max(played_on) AS last_on
    FROM checked_sessions
    WHERE recorded > 0
    GROUP BY department, team, season
    HAVING count(*) >= 5 AND sum(outs) = 0
),
missing AS (
    SELECT s.team, s.season, count(*) AS missing
    FROM checked_missing AS m
    JOIN checked_sessions AS s USING (session_no)
    GROUP BY s.team, s.season
)
SELECT
    n.department,
    n.team,
    NULL::VARCHAR AS athlete,
    NULL::VARCHAR AS name,
    n.last_on AS dated_on,
    'attendance' AS table_name,
    n.team AS key,
    n.season || ': nobody is out in ' || n.sessions || ' sessions, and '
        || m.missing || ' rows are missing beside ' || n.recorded || ' recorded' AS detail
FROM never_out AS n
JOIN missing AS m USING (team, season)
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
