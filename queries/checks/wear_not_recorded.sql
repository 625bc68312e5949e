-- question: In which sessions is no guard recorded as worn although several could have been?
-- touches: compare (guarded exposures), games (guarded exposures), take-up (worn share),
--   roster (worn share)
-- why: Not recorded counts as bare: guarded exposures turn into bare ones, and an injury
--   there is blamed on having worn nothing. It draws every ratio toward 1, or past it.
-- mend: Record what was worn; if nobody knows, leave the session out by its team and days.
-- works on: checks
-- scope: checks
-- grain: one row per session with attendance, without any wear, in which three or more took
--   part who had a guard
-- columns: doubts
SELECT
    department, team, athlete, name, played_on AS dated_on, 'wear' AS table_name,
    session AS key,
    setting || ': no guard worn, but ' || could_wear || ' took part who had one' AS detail
FROM checked_unworn
WHERE could_wear >= 3
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
