-- Writes the teams of the view `incoming`; $load_no is the load.
-- A team already there keeps its load and takes the new cells.
INSERT INTO store.teams (team, department, sport, sex, load_no)
SELECT incoming.team, incoming.department, incoming.sport, incoming.sex, $load_no
FROM incoming
ON CONFLICT (team) DO UPDATE SET
    department = excluded.department,
    sport = excluded.sport,
    sex = excluded.sex
