-- question: Which drawn sites had their turn come, session by session, and which were injured?
-- works on: scope
-- scope: sites
-- grain: one row per athlete, session and drawn site, from the draw to its first injury
-- columns:
--   athlete VARCHAR            code of the athlete, the same in every table of this folder
--   stratum VARCHAR            body area, number of the session and key of the draw
--   side VARCHAR               left, right or midline
--   come BOOLEAN               the turn had come and the days to make a guard were over
--   injured BOOLEAN            the site was injured in this session, by the outcome asked for
--   guarded BOOLEAN            a preventive guard was worn at the site then; NULL: not known
SELECT
    n.athlete,
    concat_ws(' · ', e.area, s.session_number, 'draw ' || e.draw) AS stratum,
    e.side, e.is_come AS come, e.injured, e.guarded
FROM turn_exposures($until, $kinds) AS e
JOIN numbered_sessions() AS s USING (session_no)
JOIN store.athletes AS n USING (athlete_no)
ORDER BY s.session_number, n.athlete, e.area, e.side;
