-- Writes the roster rows of the view `incoming`; $load_no is the load. Its athletes have numbers.
-- A row already there keeps its load and takes the new cells.
INSERT INTO store.roster (
    athlete_no, team, season, name, jersey, position, position_group, joined_on, left_on, load_no
)
SELECT
    athletes.athlete_no,
    incoming.team,
    incoming.season,
    incoming.name,
    incoming.jersey,
    incoming.position,
    incoming.position_group,
    incoming.joined_on,
    incoming.left_on,
    $load_no
FROM incoming
JOIN store.athletes AS athletes ON athletes.athlete = incoming.athlete
ON CONFLICT (athlete_no, team, season) DO UPDATE SET
    name = excluded.name,
    jersey = excluded.jersey,
    position = excluded.position,
    position_group = excluded.position_group,
    joined_on = excluded.joined_on,
    left_on = excluded.left_on
