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
  AND (seasons IS NULL OR list_contains(seasons, s.season))
  AND (departments IS NULL OR list_contains(departments, t.department))
  AND (teams IS NULL OR list_contains(teams, s.team))
  AND (sports IS NULL OR list_contains(sports, t.sport))
  AND (sexes IS NULL OR list_contains(sexes, t.sex::VARCHAR))
  AND (settings IS NULL OR list_contains(settings, s.setting::VARCHAR));

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
  AND (position_groups IS NULL OR list_contains(position_groups, r.position_group));
