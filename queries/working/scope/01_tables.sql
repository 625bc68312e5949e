-- What every question about the sites of a scope looks at, worked out once for all that are asked
-- together: a question's planning costs more than its counting. Parameters as in the questions.
-- Each question has those made that it names, and what they are made from.

-- Sessions of the scope's teams and seasons, games and practices alike, with the day of the first
-- one in that team's season; and those of the settings asked for.
CREATE OR REPLACE TEMP TABLE season_sessions AS
SELECT *, min(played_on) OVER (PARTITION BY team, season) AS begins_on
FROM scope_sessions($seasons, $until, $departments, $teams, $sports, $sexes, NULL)
JOIN wear_of_sessions() USING (session_no);

CREATE OR REPLACE TEMP TABLE scoped_sessions AS
SELECT * FROM season_sessions WHERE is_asked($settings, setting);

-- One athlete who took part, in full or limited, in one session of the scope: an
-- athlete-exposure. Being listed is not taking part.
CREATE OR REPLACE TEMP TABLE scoped_exposures AS
SELECT s.session_no, s.starts_at, s.played_on, a.athlete_no, r.position_group, a.minutes, a.plays
FROM scoped_sessions AS s
JOIN store.attendance AS a USING (session_no)
LEFT JOIN store.roster AS r
    ON r.athlete_no = a.athlete_no AND r.team = s.team AND r.season = s.season
WHERE a.part <> 'out'
  AND is_asked($position_groups, r.position_group);

-- Athletes on the roster on the day of a session, whatever its setting, and whether attendance of
-- them is recorded there: full, limited or out.
CREATE OR REPLACE TEMP TABLE listed_athletes AS
SELECT
    s.session_no, s.setting, s.starts_at, s.played_on, r.position_group, r.athlete_no,
    a.session_no IS NOT NULL AS is_recorded
FROM season_sessions AS s
JOIN store.roster AS r ON r.team = s.team AND r.season = s.season
LEFT JOIN store.attendance AS a
    ON a.session_no = s.session_no AND a.athlete_no = r.athlete_no
WHERE is_listed(r.joined_on, r.left_on, s.played_on)
  AND is_asked($position_groups, r.position_group);

CREATE OR REPLACE TEMP TABLE scoped_sites AS
SELECT * FROM scope_sites($kinds, $areas, $sides);

-- The guards of the kinds in scope, one row per site of the scope that they cover.
CREATE OR REPLACE TEMP TABLE site_guards AS
SELECT g.guard_no, g.athlete_no, g.purpose::VARCHAR AS purpose, x.area, x.side
FROM store.guards AS g
JOIN store.kinds AS k USING (kind)
JOIN scoped_sites AS x ON x.area = k.area::VARCHAR AND covers(g.side, x.side)
WHERE list_contains($kinds, g.kind) AND is_made_of($made_of, g.guard_no);

-- Injuries to any site, with how near it is to the areas that guards of the scope cover (NULL: it
-- is in one); and those to the sites of the scope.
CREATE OR REPLACE TEMP TABLE all_injuries AS
SELECT * FROM site_injuries($until) LEFT JOIN uncovered_areas($kinds) USING (area);

CREATE OR REPLACE TEMP TABLE scoped_injuries AS
SELECT i.* EXCLUDE (nearness)
FROM all_injuries AS i
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

-- Guards of the kinds in scope while they were in the hands of athletes; `is_other`: made of
-- something else than is asked for.
CREATE OR REPLACE TEMP TABLE scoped_in_hand AS
SELECT *, NOT is_made_of($made_of, guard_no) AS is_other
FROM guards_in_hand()
WHERE list_contains($kinds, kind);

-- Most site-exposures are bare, uninjured and never were injured. These are the others: the athlete
-- had a guard that covers the site, or wore one, it had been injured before, or it was injured in
-- this session. Questions that only count take the rest as a total, which is what makes them fast.
-- `wear`, of an athlete with a guard of the kinds in scope there: worn, not worn or not known. What
-- the injury itself says (`was_on`) goes before the record of wear; two that differ say nothing.
CREATE OR REPLACE TEMP TABLE scoped_marks AS
WITH recorded AS (
    SELECT
        w.session_no, w.guard_no, g.athlete_no, g.kind, g.side, g.purpose,
        wear_state(true, w.worn, NULL) AS wear,
        NOT (list_contains($kinds, g.kind) AND is_made_of($made_of, g.guard_no)) AS is_other
    FROM store.wear AS w
    JOIN store.guards AS g USING (guard_no)
    UNION ALL
    SELECT
        e.session_no, h.guard_no, h.athlete_no, h.kind, h.side, h.purpose,
        wear_state(false, NULL, s.wear), h.is_other
    FROM scoped_in_hand AS h
    JOIN scoped_exposures AS e
        ON e.athlete_no = h.athlete_no
        AND e.starts_at >= h.in_hand_at
        AND coalesce(e.starts_at < h.over_at, true)
    JOIN scoped_sessions AS s USING (session_no)
    ANTI JOIN store.wear AS w ON w.session_no = e.session_no AND w.guard_no = h.guard_no
),
marks AS (
    SELECT
        e.session_no, e.athlete_no, e.position_group, x.area, x.side,
        CASE WHEN w.is_other THEN 'other kind' ELSE w.purpose::VARCHAR END AS use,
        w.wear,
        false AS after_injury, false AS injured, false AS any_injury, NULL AS was_on
    FROM recorded AS w
    JOIN store.kinds AS k USING (kind)
    JOIN scoped_sites AS x
        ON x.area = k.area::VARCHAR AND covers(w.side, x.side)
    JOIN scoped_exposures AS e ON e.session_no = w.session_no AND e.athlete_no = w.athlete_no
    UNION ALL
    SELECT
        e.session_no, e.athlete_no, e.position_group, f.area, f.side,
        NULL, NULL, true, false, false, NULL
    FROM scoped_exposures AS e
    JOIN scoped_first_injuries AS f USING (athlete_no)
    WHERE e.starts_at > f.first_at OR e.played_on > f.first_on
    UNION ALL
    SELECT
        e.session_no, e.athlete_no, e.position_group, i.area, i.side,
        NULL, NULL, false, $outcome = 'any' OR i.time_loss, true, i.was_on
    FROM scoped_exposures AS e
    JOIN scoped_injuries AS i USING (session_no, athlete_no)
),
sites AS (
    SELECT
        session_no, athlete_no, position_group, area, side,
        coalesce(bool_or(use = 'preventive'), false) AS has_preventive,
        coalesce(bool_or(use = 'return'), false) AS has_return,
        coalesce(bool_or(use = 'preventive' AND wear = 'worn'), false) AS preventive,
        coalesce(bool_or(use = 'return' AND wear = 'worn'), false) AS for_return,
        coalesce(bool_or(use = 'other kind' AND wear = 'worn'), false) AS other_kind,
        coalesce(bool_or(wear = 'not known'), false) AS is_unknown,
        bool_or(after_injury) AS after_injury,
        bool_or(injured) AS injured,
        bool_or(any_injury) AS any_injury,
        CASE WHEN min(was_on) = max(was_on) THEN min(was_on) END AS was_on
    FROM marks
    GROUP BY session_no, athlete_no, position_group, area, side
),
said AS (
    SELECT
        * EXCLUDE (preventive, for_return, other_kind),
        was_on = 'yes' AND NOT (preventive OR for_return OR other_kind) AS is_added,
        preventive AND was_on IS DISTINCT FROM 'no' AS preventive,
        for_return AND was_on IS DISTINCT FROM 'no' AS for_return,
        other_kind AND was_on IS DISTINCT FROM 'no' AS other_kind
    FROM sites
),
worn AS (
    SELECT
        * REPLACE (
            preventive OR coalesce(is_added AND has_preventive, false) AS preventive,
            for_return OR coalesce(is_added AND has_return, false) AS for_return,
            other_kind OR coalesce(is_added AND NOT (has_preventive OR has_return), false)
                AS other_kind
        )
    FROM said
)
SELECT
    session_no, athlete_no, position_group, area, side, preventive, for_return, other_kind,
    after_injury, injured, any_injury,
    CASE
        WHEN NOT (has_preventive OR has_return) AND NOT (is_unknown AND was_on IS NULL) THEN NULL
        WHEN preventive OR for_return THEN 'worn'
        WHEN is_unknown AND was_on IS NULL THEN 'not known'
        ELSE 'not worn'
    END AS wear
FROM worn;

-- Injuries to the sites of the scope in its sessions, with their marks. `record` numbers the
-- records of one site in one session, one that cost time first.
CREATE OR REPLACE TEMP TABLE marked_injuries AS
SELECT
    i.*, s.session, r.name,
    m.session_no IS NOT NULL AS is_exposed,
    m.preventive, m.for_return, m.other_kind, m.after_injury, m.wear,
    row_number() OVER (
        PARTITION BY i.session_no, i.athlete_no, i.area, i.side
        ORDER BY i.time_loss DESC, i.injury
    ) AS record
FROM scoped_injuries AS i
JOIN scoped_sessions AS s USING (session_no)
LEFT JOIN store.roster AS r
    ON r.athlete_no = i.athlete_no AND r.team = s.team AND r.season = s.season
LEFT JOIN scoped_marks AS m
    ON m.session_no = i.session_no AND m.athlete_no = i.athlete_no
    AND m.area = i.area AND m.side = i.side
WHERE is_asked($position_groups, r.position_group);
