-- question: Which injuries are open although the athlete has since played in full?
-- works on: checks
-- scope: checks
-- grain: one row per injury without a known return
-- columns: doubts
WITH played AS (
    SELECT i.injury, count(*) AS sessions, min(s.played_on) AS first_on
    FROM checked_injuries AS i
    JOIN store.attendance AS a ON a.athlete_no = i.athlete_no AND a.part = 'full'
    JOIN store.sessions AS s ON s.session_no = a.session_no
    WHERE i.returned_on IS NULL AND s.played_on > i.occurred_on AND s.played_on < $until
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
    i.area || ', ' || i.side || ': no return, but in full in ' || p.sessions
        || ' sessions since, first on ' || p.first_on AS detail
FROM checked_injuries AS i
JOIN played AS p USING (injury)
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
