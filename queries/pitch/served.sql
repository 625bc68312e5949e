-- question: How large is a team that is served, and how long is its season?
-- scope: athletes
-- grain: one row per sport and sex of which a season has begun
-- columns:
--   sport VARCHAR         as in teams
--   sex VARCHAR           women, men, mixed
--   team_seasons BIGINT   seasons of its teams that have begun
--   athletes DOUBLE       median over them: athletes on the roster
--   games DOUBLE          median: games, those listed for later days too
--   practices DOUBLE      median: practices held so far
--   weeks DOUBLE          median: weeks from the first to the last of them, begun weeks counted
WITH begun AS (
    SELECT
        s.team, s.season,
        count(*) FILTER (s.setting = 'game') AS games,
        count(*) FILTER (s.setting = 'practice' AND s.played_on < $until) AS practices,
        (max(s.played_on) FILTER (s.setting = 'game' OR s.played_on < $until)
            - min(s.played_on)) // 7 + 1 AS weeks
    FROM store.sessions AS s
    WHERE is_asked($seasons, s.season)
    GROUP BY s.team, s.season
    HAVING min(s.played_on) < $until
),
rosters AS (
    SELECT team, season, count(*) AS athletes
    FROM store.roster
    WHERE coalesce(joined_on < $until, true)
      AND is_asked($position_groups, position_group)
    GROUP BY team, season
)
SELECT
    t.sport,
    t.sex::VARCHAR AS sex,
    count(*) AS team_seasons,
    median(r.athletes)::DOUBLE AS athletes,
    median(b.games)::DOUBLE AS games,
    median(b.practices)::DOUBLE AS practices,
    median(b.weeks)::DOUBLE AS weeks
FROM begun AS b
JOIN rosters AS r USING (team, season)
JOIN asked_teams($departments, $teams, $sports, $sexes) AS t USING (team)
GROUP BY t.sport, t.sex
ORDER BY t.sport, t.sex;
