-- question: In which sessions is not recorded what was worn although several could have worn a guard?
-- touches: compare (guarded exposures), games (guarded exposures), take-up (worn share),
--   roster (worn share)
-- why: Where a team never said for which sessions its wear is complete, not recorded counts as
--   bare: an injury there is blamed on having worn nothing. Else these exposures are set aside.
-- mend: Record what was worn, and what was not; mark the session as complete once that is done.
-- works on: checks
-- scope: checks
-- grain: one row per session in which three or more took part who had a guard and no record of it;
--   of sessions taken for complete, those without any wear; none of those marked as complete
-- columns: doubts
WITH lacking AS (
    SELECT session_no, count(DISTINCT athlete_no) AS athletes
    FROM wear_not_known()
    WHERE is_asked($kinds, kind)
    GROUP BY session_no
),
doubts AS (
    SELECT
        s.* EXCLUDE (wear, could_wear), could_wear AS athletes,
        setting || ': no guard worn, but ' || could_wear || ' took part who had one' AS detail
    FROM checked_unworn AS s
    WHERE wear = 'assumed'
    UNION ALL
    SELECT
        s.*, l.athletes,
        setting || ': whether it was worn is not recorded for ' || l.athletes || ' who had a guard'
    FROM checked_sessions AS s
    JOIN lacking AS l USING (session_no)
)
SELECT
    department, team, athlete, name, played_on AS dated_on, 'wear' AS table_name,
    session AS key, detail
FROM doubts
WHERE athletes >= 3
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
