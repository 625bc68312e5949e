-- question: Who took part without a position group on the roster?
-- touches: compare (same session, alike athletes), games (one mix of athletes)
-- why: Athletes without a group are compared only with others without one: their injuries
--   may inform nothing.
-- mend: Give them a position group on the roster.
-- works on: checks
-- scope: checks
-- grain: one row per athlete, team and season
-- columns: doubts
SELECT DISTINCT
    p.department, p.team, p.athlete, p.name, NULL::DATE AS dated_on, 'roster' AS table_name,
    p.athlete AS key,
    p.season || ': no position group' AS detail
FROM checked_places AS p
JOIN checked_sessions AS s USING (team, season)
JOIN store.attendance AS a ON a.session_no = s.session_no AND a.athlete_no = p.athlete_no
WHERE a.part <> 'out' AND p.position_group IS NULL
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
