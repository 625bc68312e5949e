-- What every question about the sites of a scope looks at, worked out once for all that are asked
-- together: a question's planning costs more than its counting. Parameters as in the questions.

CREATE OR REPLACE TEMP TABLE scoped_sessions AS
SELECT *
FROM scope_sessions($seasons, $until, $departments, $teams, $sports, $sexes, $settings);

CREATE OR REPLACE TEMP TABLE scoped_exposures AS
SELECT *
FROM athlete_exposures(
    $seasons, $until, $departments, $teams, $sports, $sexes, $settings, $position_groups
);

CREATE OR REPLACE TEMP TABLE scoped_sites AS
SELECT * FROM scope_sites($kinds, $areas, $sides);

CREATE OR REPLACE TEMP TABLE scoped_injuries AS
SELECT i.*
FROM site_injuries($until) AS i
JOIN scoped_sites AS x ON x.area = i.area AND x.side = i.side;

-- The first injury to each site, from the whole history: in a session (an instant), or outside one
-- (a day). Either may be NULL.
CREATE OR REPLACE TEMP TABLE scoped_first_injuries AS
SELECT
    athlete_no, area, side,
    min(starts_at) AS first_at,
    min(occurred_on) FILTER (session_no IS NULL) AS first_on
FROM scoped_injuries
GROUP BY athlete_no, area, side;

-- Most site-exposures are bare, uninjured and never were injured. These are the others: something
-- was worn at the site, it had been injured before, or it was injured in this session. Questions
-- that only count take the rest as a total, which is what makes them fast.
CREATE OR REPLACE TEMP TABLE scoped_marks AS
WITH marks AS (
    SELECT
        e.session_no, e.athlete_no, e.position_group, x.area, x.side,
        g.purpose = 'preventive' AND list_contains($kinds, g.kind) AS preventive,
        g.purpose = 'return' AND list_contains($kinds, g.kind) AS for_return,
        NOT list_contains($kinds, g.kind) AS other_kind,
        false AS after_injury, false AS injured, false AS any_injury
    FROM worn_guards() AS w
    JOIN store.guards AS g USING (guard_no)
    JOIN store.kinds AS k USING (kind)
    JOIN scoped_sites AS x
        ON x.area = k.area::VARCHAR AND covers(g.side, x.side)
    JOIN scoped_exposures AS e ON e.session_no = w.session_no AND e.athlete_no = g.athlete_no
    UNION ALL
    SELECT
        e.session_no, e.athlete_no, e.position_group, f.area, f.side,
        false, false, false, true, false, false
    FROM scoped_exposures AS e
    JOIN scoped_first_injuries AS f USING (athlete_no)
    WHERE e.starts_at > f.first_at OR e.played_on > f.first_on
    UNION ALL
    SELECT
        e.session_no, e.athlete_no, e.position_group, i.area, i.side,
        false, false, false, false, $outcome = 'any' OR i.time_loss, true
    FROM scoped_exposures AS e
    JOIN scoped_injuries AS i USING (session_no, athlete_no)
)
SELECT
    session_no, athlete_no, position_group, area, side,
    bool_or(preventive) AS preventive,
    bool_or(for_return) AS for_return,
    bool_or(other_kind) AS other_kind,
    bool_or(after_injury) AS after_injury,
    bool_or(injured) AS injured,
    bool_or(any_injury) AS any_injury
FROM marks
GROUP BY session_no, athlete_no, position_group, area, side;
