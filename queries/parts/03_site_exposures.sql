-- Site-exposures: one athlete-exposure looked at for one site of the scope.
--   guarded     a guard that counts in this view was worn at the site in this session
--   set_aside   why it is in neither group (NULL: it counts)
--   injured     the site was injured in this session, by the outcome asked for
--   any_injury  an injury to the site is recorded in this session, whatever the outcome
-- View `preventive`: no earlier injury to the site; guard made to prevent, or none.
-- View `return`: after an injury to the site; guard made for return, or none. View `all`: both.
CREATE MACRO site_exposures(
    seasons, until, departments, teams, sports, sexes, settings, position_groups,
    kinds, areas, sides, purpose, outcome
) AS TABLE
WITH injured_sites AS (
    SELECT
        session_no,
        athlete_no,
        area,
        side,
        bool_or(outcome = 'any' OR time_loss) AS injured
    FROM site_injuries(until)
    WHERE session_no IS NOT NULL
    GROUP BY ALL
),
looked_at AS (
    SELECT
        e.*,
        x.area,
        x.side,
        coalesce(w.preventive, false) AS preventive,
        coalesce(w.for_return, false) AS for_return,
        coalesce(w.other_kind, false) AS other_kind,
        coalesce(e.starts_at > f.first_at, false) OR coalesce(e.played_on > f.first_on, false)
            AS after_injury,
        coalesce(i.injured, false) AS injured,
        i.session_no IS NOT NULL AS any_injury
    FROM athlete_exposures(
        seasons, until, departments, teams, sports, sexes, settings, position_groups
    ) AS e
    CROSS JOIN scope_sites(kinds, areas, sides) AS x
    LEFT JOIN worn_sites(kinds) AS w
        ON w.session_no = e.session_no AND w.athlete_no = e.athlete_no
        AND w.area = x.area AND w.side = x.side
    LEFT JOIN first_injuries(until) AS f
        ON f.athlete_no = e.athlete_no AND f.area = x.area AND f.side = x.side
    LEFT JOIN injured_sites AS i
        ON i.session_no = e.session_no AND i.athlete_no = e.athlete_no
        AND i.area = x.area AND i.side = x.side
)
SELECT
    * EXCLUDE (preventive, for_return, other_kind, after_injury),
    CASE purpose
        WHEN 'preventive' THEN preventive
        WHEN 'return' THEN for_return
        ELSE preventive OR for_return
    END AS guarded,
    CASE
        WHEN purpose = 'preventive' AND after_injury THEN 'after an earlier injury to the site'
        WHEN purpose = 'preventive' AND for_return THEN 'a guard made for return was worn'
        WHEN purpose = 'return' AND NOT after_injury THEN 'no earlier injury to the site'
        WHEN purpose = 'return' AND preventive AND NOT for_return
        THEN 'a preventive guard was worn'
        WHEN other_kind AND NOT (preventive OR for_return)
        THEN 'a guard of another kind was worn at the site'
    END AS set_aside
FROM looked_at;
