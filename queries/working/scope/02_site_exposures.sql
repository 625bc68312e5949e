-- A site-exposure is one athlete-exposure looked at for one site of the scope.
--   guarded     a guard that counts in this view was worn at the site in this session; NULL where
--               nobody recorded whether one was
--   set_aside   why it is in neither group (NULL: it counts)
--   injured     the site was injured in this session, by the outcome asked for
--   any_injury  an injury to the site is recorded in this session, whatever the outcome
-- View `preventive`: no earlier injury to the site; guard made to prevent, or none.
-- View `return`: after an injury to the site; guard made for return, or none. View `all`: both.
-- View `through` (for comparing an athlete with himself or herself): as preventive, but followed
-- through injuries.

CREATE OR REPLACE TEMP MACRO is_guarded(purpose, wear, preventive, for_return) AS CASE
    WHEN wear = 'not known' THEN NULL
    WHEN purpose IN ('preventive', 'through') THEN preventive
    WHEN purpose = 'return' THEN for_return
    ELSE preventive OR for_return
END;

CREATE OR REPLACE TEMP MACRO why_set_aside(
    purpose, wear, preventive, for_return, other_kind, after_injury
) AS CASE
    WHEN purpose = 'preventive' AND after_injury THEN 'after an earlier injury to the site'
    WHEN purpose IN ('preventive', 'through') AND for_return
    THEN 'a guard made for return was worn'
    WHEN purpose = 'return' AND NOT after_injury THEN 'no earlier injury to the site'
    WHEN purpose = 'return' AND preventive AND NOT for_return
    THEN 'a preventive guard was worn'
    WHEN other_kind AND NOT (preventive OR for_return)
    THEN 'a guard outside the scope was worn at the site'
    WHEN wear = 'not known' THEN 'nobody recorded whether the guard was worn'
END;

CREATE OR REPLACE TEMP MACRO marked_sites(purpose) AS TABLE
SELECT
    session_no, athlete_no, position_group, area, side, injured, any_injury,
    is_guarded(purpose, wear, preventive, for_return) AS guarded,
    why_set_aside(purpose, wear, preventive, for_return, other_kind, after_injury) AS set_aside
FROM scoped_marks;

-- Every exposure of a site whose athlete had a guard of the kinds in scope for it: whether it was
-- worn, not worn, or not known; and whether the site was injured. `is_new`: not injured before.
CREATE OR REPLACE TEMP MACRO owned_sites() AS TABLE
SELECT
    session_no, athlete_no, position_group, area, side, wear, injured, any_injury,
    NOT after_injury AS is_new
FROM scoped_marks
WHERE wear IS NOT NULL;

-- Injuries in sessions of the scope, and whether each is in the comparison: `is_exposed` says that
-- its athlete is recorded as taking part, `why` why it is not counted although that is so.
CREATE OR REPLACE TEMP MACRO session_injuries(purpose, outcome) AS TABLE
SELECT
    *,
    is_guarded(purpose, wear, preventive, for_return) AS guarded,
    coalesce(
        why_set_aside(purpose, wear, preventive, for_return, other_kind, after_injury),
        CASE
            WHEN outcome <> 'any' AND NOT time_loss THEN 'no day lost'
            WHEN record > 1 THEN 'a second record of the same site in the same session'
        END
    ) AS why
FROM marked_injuries;

-- The sessions of the scope with their numbers, in the order of seasons, teams and starts.
CREATE OR REPLACE TEMP MACRO numbered_sessions() AS TABLE
SELECT *, row_number() OVER (ORDER BY season, team, starts_at, session_no) AS session_number
FROM scoped_sessions;

-- Every site-exposure, marked or not, one row each.
CREATE OR REPLACE TEMP MACRO site_exposures(purpose) AS TABLE
SELECT
    e.session_no, e.athlete_no, e.starts_at, e.played_on, e.position_group, x.area, x.side,
    coalesce(m.injured, false) AS injured,
    coalesce(m.any_injury, false) AS any_injury,
    CASE WHEN m.session_no IS NULL THEN false ELSE m.guarded END AS guarded,
    CASE
        WHEN m.session_no IS NOT NULL THEN m.set_aside
        WHEN purpose = 'return' THEN 'no earlier injury to the site'
    END AS set_aside
FROM scoped_exposures AS e
CROSS JOIN scoped_sites AS x
LEFT JOIN marked_sites(purpose) AS m
    ON m.session_no = e.session_no AND m.athlete_no = e.athlete_no
    AND m.area = x.area AND m.side = x.side;

-- What each athlete adds to the cells of `exposure_cells`: all sites as if they were bare, then the
-- marked ones put where they belong.
CREATE OR REPLACE TEMP MACRO athlete_pieces(purpose) AS TABLE
SELECT e.session_no, e.position_group, x.area, e.athlete_no, 0 AS a, 0 AS b, 0 AS t1, x.sites AS t0
FROM scoped_exposures AS e
CROSS JOIN (SELECT area, count(*) AS sites FROM scoped_sites GROUP BY area) AS x
WHERE purpose <> 'return'
UNION ALL
SELECT
    session_no, position_group, area, athlete_no,
    (set_aside IS NULL AND guarded AND injured)::INTEGER,
    (set_aside IS NULL AND NOT guarded AND injured)::INTEGER,
    (set_aside IS NULL AND guarded)::INTEGER,
    CASE
        WHEN purpose = 'return' THEN (set_aside IS NULL AND NOT guarded)::INTEGER
        ELSE -(set_aside IS NOT NULL OR guarded)::INTEGER
    END
FROM marked_sites(purpose);

-- Injuries and exposures of both groups by session, position group and body area: the finest
-- cells, from which every stratum is summed. a, b: injuries guarded and bare; t1, t0: exposures.
CREATE OR REPLACE TEMP MACRO exposure_cells(purpose) AS TABLE
WITH areas_studied AS (
    SELECT area, count(*) AS sites FROM scoped_sites GROUP BY area
),
athletes AS (
    SELECT session_no, position_group, count(*) AS athletes
    FROM scoped_exposures
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
        count(*) FILTER (purpose = 'return' AND set_aside IS NULL AND NOT guarded)
            - count(*) FILTER (purpose <> 'return' AND (set_aside IS NOT NULL OR guarded))
    FROM marked_sites(purpose)
    GROUP BY session_no, position_group, area
)
SELECT
    session_no, position_group, area,
    sum(a)::BIGINT AS a,
    sum(b)::BIGINT AS b,
    sum(t1)::BIGINT AS t1,
    sum(t0)::BIGINT AS t0
FROM pieces
GROUP BY session_no, position_group, area
HAVING sum(t1) + sum(t0) > 0;
