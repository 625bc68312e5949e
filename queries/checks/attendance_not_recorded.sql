-- question: Who was on the roster when a session was held, and has no row of attendance?
-- touches: compare (exposures and rates), games (numbers at risk), roster (availability),
--   departments (availability)
-- why: Without a row there is no exposure: if the athlete took part, rates are too high and
--   the game is missing on the clock; if not, availability does not know it.
-- mend: Add the row: full, limited or out; a coach's list of who was there is enough.
-- works on: checks
-- scope: checks
-- grain: one row per session that has attendance and athlete without a row
-- columns: doubts
SELECT
    p.department, p.team, p.athlete, p.name, s.played_on AS dated_on, 'attendance' AS table_name,
    s.session AS key,
    s.setting || ': on the roster that day, but no row' AS detail
FROM checked_missing AS m
JOIN checked_sessions AS s USING (session_no)
JOIN checked_places AS p USING (athlete_no, team, season)
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
