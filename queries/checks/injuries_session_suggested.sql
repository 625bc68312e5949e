-- question: Which injuries name no session although the athlete took part in one that day?
-- works on: checks
-- scope: checks
-- grain: one row per injury
-- columns: doubts
WITH suggested AS (
    SELECT
        i.injury,
        string_agg(s.session, ', ' ORDER BY s.starts_at, s.session_no) AS sessions
    FROM checked_injuries AS i
    JOIN store.attendance AS a ON a.athlete_no = i.athlete_no AND a.part <> 'out'
    JOIN store.sessions AS s ON s.session_no = a.session_no AND s.played_on = i.occurred_on
    WHERE i.session_no IS NULL
    GROUP BY i.injury
)
SELECT
    i.department,
    i.team,
    i.athlete,
    i.name,
    i.occurred_on AS dated_on,
    'injuries' AS table_name,
    i.injury AS key,
    i.area || ', ' || i.side || ': no session, but took part that day in ' || g.sessions AS detail
FROM checked_injuries AS i
JOIN suggested AS g USING (injury)
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
