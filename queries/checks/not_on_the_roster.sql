-- question: Who took part in a session without being on that team's roster that day?
-- touches: compare (position groups), games (the mix of athletes), roster (availability)
-- why: The exposure counts, but without a position group: it is compared only with others
--   that have none.
-- mend: Add the athlete to the roster, or mend the day of joining or leaving.
-- works on: checks
-- scope: checks
-- grain: one row per session and athlete who took part
-- columns: doubts
SELECT
    department, team, athlete, name, played_on AS dated_on, 'roster' AS table_name,
    session AS key,
    part || CASE
        WHEN NOT is_rostered THEN ', but not on the roster of ' || team || ' in ' || season
        WHEN joined_on > played_on THEN ', but joined only on ' || joined_on
        ELSE ', but left on ' || left_on
    END AS detail
FROM checked_attendance($position_groups)
WHERE part <> 'out'
  AND (NOT is_rostered OR joined_on > played_on OR left_on < played_on)
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
