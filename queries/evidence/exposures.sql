-- question: Which site-exposures are compared, guarded or bare, and which were injured?
-- works on: scope
-- scope: groups
-- grain: one row per athlete, session and site of the scope
-- columns:
--   athlete VARCHAR            code of the athlete, the same in every table of this folder
--   season VARCHAR             as in the record
--   team VARCHAR               key of the team
--   sport VARCHAR              sport of the team
--   sex VARCHAR                who plays in the team
--   position_group VARCHAR     as on the roster; empty: not recorded
--   session_number BIGINT      number of the session, in the order of seasons, teams and starts
--   setting VARCHAR            game or practice
--   block BIGINT               two-week block, counted from Monday 3 January 2000
--   area VARCHAR               body area
--   side VARCHAR               left, right or midline
--   guarded BOOLEAN            a guard that counts here was worn at the site in this session; empty:
--                              nobody recorded whether one was
--   injured BOOLEAN            the site was injured in this session, by the outcome asked for
--   set_aside VARCHAR          why the row is in neither group; empty: it is compared
SELECT
    n.athlete, s.season, s.team, s.sport, s.sex, e.position_group, s.session_number, s.setting,
    s.block, e.area, e.side, e.guarded, e.injured, e.set_aside
FROM site_exposures($purpose) AS e
JOIN numbered_sessions() AS s USING (session_no)
JOIN store.athletes AS n USING (athlete_no)
ORDER BY s.session_number, n.athlete, e.area, e.side;
