-- Sessions of the scope that were known by `until` (the first day not yet known), with what
-- describes their team. `block` is the two-week block: fortnights counted from a Monday.
CREATE MACRO scope_sessions(seasons, until, departments, teams, sports, sexes, settings) AS TABLE
SELECT
    s.session_no,
    s.session,
    s.team,
    t.department,
    t.sport,
    t.sex::VARCHAR AS sex,
    s.season,
    s.starts_at,
    s.played_on,
    s.setting::VARCHAR AS setting,
    (s.played_on - DATE '2000-01-03') // 14 AS block
FROM store.sessions AS s
JOIN store.teams AS t USING (team)
WHERE s.played_on < until
  AND is_asked(seasons, s.season)
  AND is_asked(departments, t.department)
  AND is_asked(teams, s.team)
  AND is_asked(sports, t.sport)
  AND is_asked(sexes, t.sex::VARCHAR)
  AND is_asked(settings, s.setting::VARCHAR);

-- One athlete who took part, in full or limited, in one session of the scope: an
-- athlete-exposure. Being listed is not taking part.
CREATE MACRO athlete_exposures(
    seasons, until, departments, teams, sports, sexes, settings, position_groups
) AS TABLE
SELECT s.session_no, s.starts_at, s.played_on, a.athlete_no, r.position_group
FROM scope_sessions(seasons, until, departments, teams, sports, sexes, settings) AS s
JOIN store.attendance AS a USING (session_no)
LEFT JOIN store.roster AS r
    ON r.athlete_no = a.athlete_no AND r.team = s.team AND r.season = s.season
WHERE a.part <> 'out'
  AND is_asked(position_groups, r.position_group);
