-- question: Which injuries name no session, and no session of that day suggests itself?
-- works on: checks
-- scope: checks
-- grain: one row per injury; the athlete took part in no session that day
-- columns: doubts
WITH suggested AS (
    SELECT
        i.injury,
        count(*) AS sessions
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
    i.area || ', ' || i.side || ': no session, and the athlete took part in none that day' AS detail
FROM checked_injuries AS i
ANTI JOIN suggested AS g USING (injury)
WHERE i.session_no IS NULL
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
