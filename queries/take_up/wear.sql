-- question: In how many of the sessions they took part in, week by week, were guards worn?
-- scope: teams, kinds, made
-- grain: one row per athlete, team the guards were made for, guard kind and week
-- columns:
--   athlete_no INTEGER  number of the athlete
--   team VARCHAR        key
--   department VARCHAR  of the team
--   kind VARCHAR        guard kind
--   week DATE           Monday of the week
--   sessions BIGINT     sessions of that team taken part in with a guard fitted and not retired,
--                       of which is known whether one was worn
--   worn BIGINT         of those, with a guard of the kind worn
--   worn_outside BIGINT sessions with one worn before any was fitted, or after all were retired
--   not_known BIGINT    sessions like `sessions`, but nobody recorded whether one was worn
WITH guards AS (
    SELECT guard_no, athlete_no, team, department, kind, time_zone
    FROM scope_guards(
        NULL, $until, $departments, $teams, $sports, $sexes, NULL, $kinds, $areas, $sides,
        $made_of
    )
),
fitted AS (
    SELECT
        g.*,
        min(s.reached_at) FILTER (s.stage = 'fitted') AS fitted_at,
        min(s.reached_at) FILTER (s.stage = 'retired') AS retired_at
    FROM guards AS g
    LEFT JOIN store.stages AS s
        ON s.guard_no = g.guard_no
        AND s.stage IN ('fitted', 'retired')
        AND (s.reached_at AT TIME ZONE g.time_zone)::DATE < $until
    GROUP BY ALL
),
places AS (
    SELECT DISTINCT athlete_no, team
    FROM store.roster
    WHERE coalesce(joined_on < $until, true)
      AND is_asked($seasons, season)
),
exposures AS (
    SELECT a.session_no, a.athlete_no, s.team, s.starts_at, s.played_on
    FROM scope_sessions($seasons, $until, $departments, $teams, $sports, $sexes, NULL) AS s
    JOIN store.attendance AS a USING (session_no)
    SEMI JOIN places AS p ON p.athlete_no = a.athlete_no AND p.team = s.team
    WHERE a.part <> 'out' AND a.athlete_no IN (SELECT athlete_no FROM guards)
),
looked_at AS (
    SELECT
        e.session_no, e.athlete_no, e.team, f.kind,
        any_value(f.department) AS department,
        any_value(date_trunc('week', e.played_on)::DATE) AS week,
        bool_or(
            coalesce(f.fitted_at <= e.starts_at, false)
            AND coalesce(f.retired_at > e.starts_at, true)
        ) AS in_hand,
        bool_or(w.guard_no IS NOT NULL) AS worn,
        bool_or(n.guard_no IS NOT NULL) AS lacking
    FROM exposures AS e
    JOIN fitted AS f USING (athlete_no, team)
    LEFT JOIN worn_guards() AS w ON w.session_no = e.session_no AND w.guard_no = f.guard_no
    LEFT JOIN wear_not_known() AS n ON n.session_no = e.session_no AND n.guard_no = f.guard_no
    GROUP BY e.session_no, e.athlete_no, e.team, f.kind
)
SELECT
    athlete_no, team,
    any_value(department) AS department,
    kind, week,
    count(*) FILTER (in_hand AND (worn OR NOT lacking)) AS sessions,
    count(*) FILTER (in_hand AND worn) AS worn,
    count(*) FILTER (worn AND NOT in_hand) AS worn_outside,
    count(*) FILTER (in_hand AND lacking AND NOT worn) AS not_known
FROM looked_at
WHERE in_hand OR worn
GROUP BY athlete_no, team, kind, week
ORDER BY athlete_no, team, kind, week;
