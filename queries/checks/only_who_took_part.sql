-- question: Which teams seem to record only those who took part?
-- touches: roster (availability), departments (availability)
-- why: Nobody is ever out, and somebody is always missing: out and not recorded cannot be
--   told apart, so availability is not known. Rates are right as long as all who took part
--   are listed.
-- mend: Record who is out, with the reason; until then do not quote the team's
--   availability.
-- works on: checks
-- scope: checks
-- grain: one row per team and season with five sessions recorded, nobody ever out, and somebody
--   missing
-- columns: doubts
WITH missing AS (
    SELECT s.team, s.season, count(*) AS missing
    FROM checked_missing
    JOIN checked_sessions AS s USING (session_no)
    GROUP BY s.team, s.season
)
SELECT
    s.department, s.team, s.athlete, s.name, max(s.played_on) AS dated_on,
    'attendance' AS table_name, s.team AS key,
    s.season || ': nobody is out in ' || count(*) || ' sessions, and ' || any_value(m.missing)
        || ' rows are missing beside ' || sum(s.recorded)::BIGINT || ' recorded' AS detail
FROM checked_sessions AS s
JOIN missing AS m USING (team, season)
WHERE s.recorded > 0
GROUP BY s.department, s.team, s.athlete, s.name, s.season
HAVING count(*) >= 5 AND sum(s.outs) = 0
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
