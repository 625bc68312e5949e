-- Sessions of the scope that were known by `until` (the first day not yet known), with what
-- describes their team. `block` is the two-week block: fortnights counted from a Monday.
CREATE MACRO scope_sessions(seasons, until, departments, teams, sports, sexes, settings) AS TABLE
SELECT
    s.session_no, s.session, s.team, t.department, t.sport,
    t.sex::VARCHAR AS sex,
    s.season, s.starts_at, s.played_on,
    s.setting::VARCHAR AS setting,
    (s.played_on - DATE '2000-01-03') // 14 AS block
FROM store.sessions AS s
JOIN asked_teams(departments, teams, sports, sexes) AS t USING (team)
WHERE s.played_on < until
  AND is_asked(seasons, s.season)
  AND is_asked(settings, s.setting::VARCHAR);

-- Whether an athlete was on a roster on a day; days not recorded do not bound it.
CREATE MACRO is_listed(joined_on, left_on, day) AS
coalesce(joined_on <= day, true) AND coalesce(left_on >= day, true);

-- Roster places of the scope, with the department.
CREATE MACRO asked_places(seasons, departments, teams, sports, sexes, position_groups) AS TABLE
SELECT r.*, t.department
FROM store.roster AS r
JOIN asked_teams(departments, teams, sports, sexes) AS t USING (team)
WHERE is_asked(seasons, r.season)
  AND is_asked(position_groups, r.position_group);

-- Athletes by the name on their last roster, or by their key.
CREATE MACRO athlete_names() AS TABLE
SELECT a.athlete_no, a.athlete, coalesce(max_by(r.name, (r.season, r.team)), a.athlete) AS name
FROM store.athletes AS a
LEFT JOIN store.roster AS r USING (athlete_no)
GROUP BY a.athlete_no, a.athlete;
