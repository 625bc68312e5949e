-- question: What does the store hold as roster, as it is loaded?
-- grain: one row per athlete, team and season
-- columns:
--   athlete         VARCHAR  key
--   team            VARCHAR  key
--   season          VARCHAR  key
--   name            VARCHAR  as written
--   jersey          VARCHAR  as written; NULL when not given
--   position        VARCHAR  as written; NULL when not given
--   position_group  VARCHAR  as written; NULL when not given
--   joined_on       DATE     day; NULL when not given
--   left_on         DATE     day; NULL when not given
SELECT
    athletes.athlete AS athlete,
    roster.team AS team,
    roster.season AS season,
    roster.name AS name,
    roster.jersey AS jersey,
    roster.position AS position,
    roster.position_group AS position_group,
    roster.joined_on AS joined_on,
    roster.left_on AS left_on
FROM store.roster AS roster
JOIN store.athletes AS athletes ON athletes.athlete_no = roster.athlete_no
ORDER BY athlete, team, season
