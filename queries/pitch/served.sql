-- question: How large is a team that is served, and how long is its whole season?
-- scope: athletes
-- grain: one row per sport and sex of which a season has begun
-- columns:
--   sport VARCHAR         as in teams
--   sex VARCHAR           women, men, mixed
--   team_seasons BIGINT   seasons of its teams that have begun
--   athletes DOUBLE       median over them: athletes on the roster; of the larger part
--   games DOUBLE          median: games, those listed for later days too; parts added up
--   practices DOUBLE      median: practices, at the same pace to the last day listed; added up
--   weeks DOUBLE          median: weeks from first to last day, begun weeks counted; added up
WITH begun AS (
    SELECT
        s.team, s.season,
        count(*) FILTER (s.setting = 'game') AS games,
        count(*) FILTER (s.setting = 'practice' AND s.played_on < $until)
            * (max(s.played_on) FILTER (s.setting = 'game' OR s.played_on < $until)
                - min(s.played_on) + 1)
            / (max(s.played_on) FILTER (s.played_on < $until) - min(s.played_on) + 1) AS practices,
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
),
-- A sport with a fall and a winter season has both in one year: the words of a season's name tell
-- which part of the year it is, whatever the year.
parts AS (
    SELECT
        t.sport, t.sex,
        count(*) AS team_seasons,
        median(r.athletes) AS athletes,
        median(b.games) AS games,
        median(b.practices) AS practices,
        median(b.weeks) AS weeks
    FROM begun AS b
    JOIN rosters AS r USING (team, season)
    JOIN asked_teams($departments, $teams, $sports, $sexes) AS t USING (team)
    GROUP BY t.sport, t.sex, regexp_replace(b.season, '[^[:alpha:]]+', '', 'g')
)
SELECT
    sport,
    sex::VARCHAR AS sex,
    sum(team_seasons)::BIGINT AS team_seasons,
    max(athletes)::DOUBLE AS athletes,
    sum(games)::DOUBLE AS games,
    sum(practices)::DOUBLE AS practices,
    sum(weeks)::DOUBLE AS weeks
FROM parts
GROUP BY sport, sex
ORDER BY sport, sex;
