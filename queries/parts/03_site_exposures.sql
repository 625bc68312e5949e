-- A site-exposure is one athlete-exposure looked at for one site of the scope.
--   guarded     a guard that counts in this view was worn at the site in this session
--   set_aside   why it is in neither group (NULL: it counts)
--   injured     the site was injured in this session, by the outcome asked for
--   any_injury  an injury to the site is recorded in this session, whatever the outcome
-- View `preventive`: no earlier injury to the site; guard made to prevent, or none.
-- View `return`: after an injury to the site; guard made for return, or none. View `all`: both.
-- View `through` (for comparing an athlete with himself or herself): as preventive, but followed
-- through injuries.

-- Most site-exposures are bare, uninjured and never were injured. These are the others: something
-- was worn at the site, it had been injured before, or it was injured in this session. Questions
-- that only count take the rest as a total, which is what makes them fast.
CREATE MACRO marked_sites(
    seasons, until, departments, teams, sports, sexes, settings, position_groups,
    kinds, areas, sides, purpose, outcome
) AS TABLE
WITH exposures AS (
    SELECT *
    FROM athlete_exposures(
        seasons, until, departments, teams, sports, sexes, settings, position_groups
    )
),
sites AS (SELECT * FROM scope_sites(kinds, areas, sides)),
marks AS (
    SELECT
        e.session_no, e.athlete_no, e.position_group, x.area, x.side,
        g.purpose = 'preventive' AND list_contains(kinds, g.kind) AS preventive,
        g.purpose = 'return' AND list_contains(kinds, g.kind) AS for_return,
        NOT list_contains(kinds, g.kind) AS other_kind,
        false AS after_injury, false AS injured, false AS any_injury
    FROM store.wear AS w
    JOIN store.guards AS g USING (guard_no)
    JOIN store.kinds AS k USING (kind)
    JOIN sites AS x
        ON x.area = k.area::VARCHAR
        AND (g.side = 'both' OR x.side IN (g.side::VARCHAR, 'midline'))
    JOIN exposures AS e ON e.session_no = w.session_no AND e.athlete_no = g.athlete_no
    UNION ALL
    SELECT
        e.session_no, e.athlete_no, e.position_group, f.area, f.side,
        false, false, false, true, false, false
    FROM exposures AS e
    JOIN first_injuries(until) AS f USING (athlete_no)
    JOIN sites AS x ON x.area = f.area AND x.side = f.side
    WHERE e.starts_at > f.first_at OR e.played_on > f.first_on
    UNION ALL
    SELECT
        e.session_no, e.athlete_no, e.position_group, i.area, i.side,
        false, false, false, false, outcome = 'any' OR i.time_loss, true
    FROM exposures AS e
    JOIN site_injuries(until) AS i USING (session_no, athlete_no)
    JOIN sites AS x ON x.area = i.area AND x.side = i.side
),
looked_at AS (
    SELECT
        session_no, athlete_no, position_group, area, side,
        bool_or(preventive) AS preventive,
        bool_or(for_return) AS for_return,
        bool_or(other_kind) AS other_kind,
        bool_or(after_injury) AS after_injury,
        bool_or(injured) AS injured,
        bool_or(any_injury) AS any_injury
    FROM marks
    GROUP BY session_no, athlete_no, position_group, area, side
)
SELECT
    session_no,
    athlete_no,
    position_group,
    area,
    side,
    injured,
    any_injury,
    CASE purpose
        WHEN 'preventive' THEN preventive
        WHEN 'through' THEN preventive
        WHEN 'return' THEN for_return
        ELSE preventive OR for_return
    END AS guarded,
    CASE
        WHEN purpose = 'preventive' AND after_injury THEN 'after an earlier injury to the site'
        WHEN purpose IN ('preventive', 'through') AND for_return
        THEN 'a guard made for return was worn'
        WHEN purpose = 'return' AND NOT after_injury THEN 'no earlier injury to the site'
        WHEN purpose = 'return' AND preventive AND NOT for_return
        THEN 'a preventive guard was worn'
        WHEN other_kind AND NOT (preventive OR for_return)
        THEN 'a guard of another kind was worn at the site'
    END AS set_aside
FROM looked_at;

-- Every site-exposure, marked or not, one row each.
CREATE MACRO site_exposures(
    seasons, until, departments, teams, sports, sexes, settings, position_groups,
    kinds, areas, sides, purpose, outcome
) AS TABLE
SELECT
    e.session_no,
    e.athlete_no,
    e.starts_at,
    e.played_on,
    e.position_group,
    x.area,
    x.side,
    coalesce(m.injured, false) AS injured,
    coalesce(m.any_injury, false) AS any_injury,
    coalesce(m.guarded, false) AS guarded,
    CASE
        WHEN m.session_no IS NOT NULL THEN m.set_aside
        WHEN purpose = 'return' THEN 'no earlier injury to the site'
    END AS set_aside
FROM athlete_exposures(
    seasons, until, departments, teams, sports, sexes, settings, position_groups
) AS e
CROSS JOIN scope_sites(kinds, areas, sides) AS x
LEFT JOIN marked_sites(
    seasons, until, departments, teams, sports, sexes, settings, position_groups,
    kinds, areas, sides, purpose, outcome
) AS m
    ON m.session_no = e.session_no AND m.athlete_no = e.athlete_no
    AND m.area = x.area AND m.side = x.side;

-- Injuries and exposures of both groups by session, position group and body area: the finest
-- cells, from which every stratum is summed. a, b: injuries guarded and bare; t1, t0: exposures.
CREATE MACRO exposure_cells(
    seasons, until, departments, teams, sports, sexes, settings, position_groups,
    kinds, areas, sides, purpose, outcome
) AS TABLE
WITH areas_studied AS (
    SELECT area, count(*) AS sites FROM scope_sites(kinds, areas, sides) GROUP BY area
),
athletes AS (
    SELECT session_no, position_group, count(*) AS athletes
    FROM athlete_exposures(
        seasons, until, departments, teams, sports, sexes, settings, position_groups
    )
    GROUP BY session_no, position_group
),
pieces AS (
    SELECT session_no, position_group, area, 0 AS a, 0 AS b, 0 AS t1, athletes * sites AS t0
    FROM athletes
    CROSS JOIN areas_studied
    WHERE purpose <> 'return'
    UNION ALL
    SELECT
        session_no, position_group, area,
        count(*) FILTER (set_aside IS NULL AND guarded AND injured),
        count(*) FILTER (set_aside IS NULL AND NOT guarded AND injured),
        count(*) FILTER (set_aside IS NULL AND guarded),
        CASE
            WHEN purpose = 'return' THEN count(*) FILTER (set_aside IS NULL AND NOT guarded)
            ELSE -count(*) FILTER (set_aside IS NOT NULL OR guarded)
        END
    FROM marked_sites(
        seasons, until, departments, teams, sports, sexes, settings, position_groups,
        kinds, areas, sides, purpose, outcome
    )
    GROUP BY session_no, position_group, area
)
SELECT
    session_no,
    position_group,
    area,
    sum(a)::BIGINT AS a,
    sum(b)::BIGINT AS b,
    sum(t1)::BIGINT AS t1,
    sum(t0)::BIGINT AS t0
FROM pieces
GROUP BY session_no, position_group, area
HAVING sum(t1) + sum(t0) > 0;
