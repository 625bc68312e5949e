-- question: Which teams does the store hold, as they are loaded?
-- grain: one row per team
-- columns:
--   team        VARCHAR  key
--   department  VARCHAR  key
--   sport       VARCHAR  as written
--   sex         VARCHAR  one of its word list
SELECT
    teams.team AS team,
    teams.department AS department,
    teams.sport AS sport,
    CAST(teams.sex AS VARCHAR) AS sex
FROM store.teams AS teams
ORDER BY team
