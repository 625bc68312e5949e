-- question: At which ticks of the clock was each site at risk, guarded or bare, and when injured?
-- works on: scope
-- scope: groups, clock
-- grain: one row per athlete, season, site and tick at which the site was followed
-- columns:
--   athlete VARCHAR            code of the athlete, the same in every table of this folder
--   season VARCHAR             as in the record
--   team VARCHAR               key of the team of that session
--   sport VARCHAR              sport of the team
--   sex VARCHAR                who plays in the team
--   position_group VARCHAR     as on the roster; empty: not recorded
--   setting VARCHAR            game or practice
--   block BIGINT               two-week block, counted from Monday 3 January 2000
--   area VARCHAR               body area
--   side VARCHAR               left, right or midline
--   start BIGINT               the tick before: at risk from just after it
--   stop BIGINT                the tick: an athlete's own games from 1, anew each season
--   event BOOLEAN              the site was injured in this session, by the outcome asked for
--   guarded BOOLEAN            a guard that counts here was worn at the site in this session
SELECT
    n.athlete, f.season, f.team, f.sport, f.sex, f.position_group, f.setting, f.block,
    f.area, f.side, f.entry AS start, f.tick AS stop, f.injured AS event, f.guarded
FROM followed_sites($purpose, false) AS f
JOIN store.athletes AS n USING (athlete_no)
WHERE f.is_followed
ORDER BY n.athlete, f.season, f.area, f.side, f.tick;
