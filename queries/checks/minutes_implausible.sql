-- question: Which minutes or plays of an athlete in a session cannot well be?
-- touches: roster (who took part)
-- why: Minutes of somebody who was out, or none of somebody who took part: one of the two
--   is wrong, and taking part is what every exposure rests on.
-- mend: Mend the part, the minutes or the plays.
-- works on: checks
-- scope: checks
-- grain: one row per session and athlete
-- columns: doubts
-- Our own limits: below 0, over 240 minutes or 250 plays, out with some, or taking part with
-- none.
SELECT
    department, team, athlete, name, played_on AS dated_on, 'attendance' AS table_name,
    session AS key,
    concat_ws(
        ', ', part::VARCHAR, format('{:g}', minutes) || ' minutes', plays || ' plays'
    ) AS detail
FROM checked_attendance($position_groups)
WHERE (minutes IS NOT NULL OR plays IS NOT NULL)
  AND (
      minutes < 0 OR minutes > 240 OR plays < 0 OR plays > 250
      OR (part = 'out' AND (minutes > 0 OR plays > 0))
      OR (part <> 'out' AND coalesce(minutes, 0) = 0 AND coalesce(plays, 0) = 0)
  )
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
