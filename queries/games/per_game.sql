-- question: How many plays and minutes does an athlete have in a game?
-- works on: scope
-- scope: groups
-- grain: one row per sport, sex and position group with an athlete's game
-- columns:
--   sport VARCHAR            of the team
--   sex VARCHAR              of the team
--   position_group VARCHAR   as in roster; NULL where not recorded
--   games BIGINT             athletes' games, in full or limited
--   with_plays BIGINT        of them, with plays recorded
--   plays BIGINT             plays in these
--   with_minutes BIGINT      of them, with minutes recorded
--   minutes DOUBLE           minutes in these
SELECT
    s.sport, s.sex, e.position_group,
    count(*) AS games,
    count(e.plays) AS with_plays,
    coalesce(sum(e.plays), 0)::BIGINT AS plays,
    count(e.minutes) AS with_minutes,
    coalesce(sum(e.minutes), 0) AS minutes
FROM scoped_exposures AS e
JOIN scoped_sessions AS s USING (session_no)
WHERE s.setting = 'game'
GROUP BY s.sport, s.sex, e.position_group
ORDER BY s.sport, s.sex, e.position_group NULLS LAST;
