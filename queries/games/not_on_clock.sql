-- question: What is not on the clock, because plays or minutes were not recorded there?
-- works on: scope
-- scope: groups, clock
-- grain: one row per kind of thing that there is
-- columns:
--   what VARCHAR   athletes' sessions, injuries
--   why VARCHAR    the reason in words
--   number BIGINT  how many
WITH lacking AS (
    SELECT session_no, athlete_no
    FROM scoped_exposures AS e
    WHERE CASE $clock WHEN 'plays' THEN e.plays WHEN 'minutes' THEN e.minutes ELSE 1 END > 0
        IS NOT true
),
listed AS (
    SELECT 'athletes'' sessions' AS what, '' AS where_it_was, count(*) AS number FROM lacking
    UNION ALL
    SELECT 'injuries', ' in that session', count(*)
    FROM lacking
    JOIN session_injuries($purpose, $outcome) AS i USING (session_no, athlete_no)
    WHERE i.is_exposed AND i.why IS NULL
)
SELECT what, format('no {} recorded{}: not on this clock', $clock, where_it_was) AS why, number
FROM listed
WHERE number > 0
ORDER BY what;
