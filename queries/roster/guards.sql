-- question: Which guards do the rostered athletes have or wait for, and do they wear them?
-- scope: guards
-- grain: one row per guard of an athlete on a roster of the scope, whatever season it was made in
-- columns:
--   guard VARCHAR            key
--   athlete VARCHAR          key
--   kind VARCHAR             guard kind
--   side VARCHAR             left, right, both or midline
--   purpose VARCHAR          preventive or return
--   state VARCHAR            open, fitted, cancelled, retired; NULL: no stage is known
--   stage VARCHAR            the stage reached last; NULL: none is known
--   department VARCHAR       of the athlete; of several the first by key; NULL: no stage is known
--   time_zone VARCHAR        of that department
--   promised_on DATE         day it was promised for; NULL: none
--   asked_at TIMESTAMPTZ     requested, else its first stage; NULL: none
--   delivered_at TIMESTAMPTZ NULL: not reached
--   fitted_at TIMESTAMPTZ    NULL: not reached
--   retired_at TIMESTAMPTZ   NULL: not reached
--   games_missed BIGINT      games of the athlete's teams in the scope since it was asked for
--   remade_by VARCHAR        guard ordered in its place, not cancelled; NULL: none
--   remade_at TIMESTAMPTZ    when that was asked for
--   is_replaced BOOLEAN      that one was fitted
--   taken_part BIGINT        sessions taken part since it was fitted, until retired, of which is
--                            known whether it was worn
--   worn BIGINT              of them, with this guard worn
--   worn_lately BIGINT       of the last three of them, with this guard worn
--   not_known BIGINT         further ones in which nobody recorded whether it was worn
--   worn_ever BIGINT         sessions with it worn, fitted or not
--   last_worn_on DATE        day it was last worn; NULL: never
--   is_undated BOOLEAN       neither a stage nor a session worn is recorded at any time
--   rule VARCHAR             in games of the athlete's teams, as looked up, or not checked
--   hurt_on DATE             day a site of it was hurt when last worn; NULL: none
WITH places AS (
    SELECT r.athlete_no, r.team, r.season, t.department, p.team IS NOT NULL AS is_in_scope
    FROM store.roster AS r
    JOIN store.teams AS t USING (team)
    LEFT JOIN asked_places($seasons, $departments, $teams, $sports, $sexes, $position_groups) AS p
        USING (athlete_no, team, season)
),
homes AS (
    SELECT p.athlete_no, d.department, d.time_zone,
        ($until::DATE::TIMESTAMP AT TIME ZONE d.time_zone) AS as_of
    FROM (
        SELECT athlete_no, min(department) AS department
        FROM places
        GROUP BY athlete_no
        HAVING bool_or(is_in_scope)
    ) AS p
    JOIN store.departments AS d USING (department)
),
guards AS (
    SELECT g.guard_no, g.guard, g.athlete_no, g.kind, g.side, g.purpose, g.remake_of,
        g.promised_on, h.department, h.time_zone, h.as_of
    FROM store.guards AS g
    JOIN homes AS h USING (athlete_no)
    WHERE g.kind IN (FROM asked_kinds($kinds, $areas))
      AND is_asked_side($sides, g.side)
      AND is_made_of($made_of, g.guard_no)
),
stamps AS (
    SELECT
        g.guard_no, g.guard, g.athlete_no, g.remake_of,
        coalesce(min(s.reached_at) FILTER (s.stage = 'requested'), min(s.reached_at)) AS asked_at,
        min(s.reached_at) FILTER (s.stage = 'delivered') AS delivered_at,
        min(s.reached_at) FILTER (s.stage = 'fitted') AS fitted_at,
        min(s.reached_at) FILTER (s.stage = 'retired') AS retired_at,
        min(s.reached_at) FILTER (s.stage = 'cancelled') AS cancelled_at,
        max(s.stage) FILTER (s.stage <> 'cancelled') AS last_stage
    FROM guards AS g
    JOIN store.stages AS s USING (guard_no)
    WHERE s.reached_at < g.as_of
    GROUP BY g.guard_no, g.guard, g.athlete_no, g.remake_of
),
orders AS (
    SELECT
        *,
        order_state(fitted_at, cancelled_at, retired_at) AS state,
        order_stage(last_stage, fitted_at, cancelled_at, retired_at) AS stage
    FROM stamps
),
remakes AS (
    SELECT
        remake_of AS guard,
        max_by(guard, (asked_at, guard)) AS remade_by,
        max(asked_at) AS remade_at,
        bool_or(fitted_at IS NOT NULL) AS is_replaced
    FROM orders
    WHERE remake_of IS NOT NULL AND state <> 'cancelled'
    GROUP BY remake_of
),
missed AS (
    SELECT o.guard_no, count(*) AS games
    FROM orders AS o
    JOIN places AS p USING (athlete_no)
    JOIN store.sessions AS s ON s.team = p.team AND s.season = p.season
    WHERE o.state = 'open' AND p.is_in_scope AND s.setting = 'game'
      AND s.starts_at > o.asked_at AND s.played_on < $until
    GROUP BY o.guard_no
),
taken AS (
    SELECT
        o.guard_no, s.session_no,
        n.guard_no IS NOT NULL AS is_unknown,
        row_number() OVER (
            PARTITION BY o.guard_no, is_unknown ORDER BY s.starts_at DESC, s.session_no DESC
        ) AS back
    FROM orders AS o
    JOIN store.attendance AS a USING (athlete_no)
    JOIN store.sessions AS s USING (session_no)
    LEFT JOIN wear_not_known() AS n ON n.session_no = a.session_no AND n.guard_no = o.guard_no
    WHERE a.part <> 'out' AND s.played_on < $until AND s.starts_at > o.fitted_at
      AND (o.retired_at IS NULL OR s.starts_at < o.retired_at)
),
since_fitted AS (
    SELECT
        t.guard_no,
        count(*) FILTER (NOT t.is_unknown) AS taken_part,
        count(*) FILTER (t.is_unknown) AS not_known,
        count(w.guard_no) AS worn,
        count(w.guard_no) FILTER (t.back <= 3) AS worn_lately
    FROM taken AS t
    LEFT JOIN worn_guards() AS w USING (session_no, guard_no)
    GROUP BY t.guard_no
),
worn AS (
    SELECT
        g.guard_no,
        count(*) AS sessions,
        max(s.played_on) AS last_on,
        max_by(s.session_no, (s.starts_at, s.session_no)) AS last_session_no
    FROM guards AS g
    JOIN worn_guards() AS w USING (guard_no)
    JOIN store.sessions AS s USING (session_no)
    WHERE s.played_on < $until
    GROUP BY g.guard_no
),
hurt AS (
    SELECT g.guard_no, max(i.occurred_on) AS hurt_on
    FROM guards AS g
    JOIN worn AS w USING (guard_no)
    JOIN store.kinds AS k USING (kind)
    JOIN store.injuries AS i
        ON i.athlete_no = g.athlete_no AND i.session_no = w.last_session_no AND i.area = k.area
    WHERE coalesce(i.reported_on, i.occurred_on) < $until
      AND (g.side = i.side OR g.side = 'both' OR i.side IN ('both', 'midline'))
    GROUP BY g.guard_no
)
SELECT
    g.guard, n.athlete, g.kind,
    g.side::VARCHAR AS side,
    g.purpose::VARCHAR AS purpose,
    o.state, o.stage,
    CASE WHEN o.state IS NOT NULL THEN g.department END AS department,
    g.time_zone, g.promised_on, o.asked_at, o.delivered_at, o.fitted_at, o.retired_at,
    coalesce(m.games, 0) AS games_missed,
    r.remade_by, r.remade_at,
    coalesce(r.is_replaced, false) AS is_replaced,
    coalesce(t.taken_part, 0) AS taken_part,
    coalesce(t.worn, 0) AS worn,
    coalesce(t.worn_lately, 0) AS worn_lately,
    coalesce(t.not_known, 0) AS not_known,
    coalesce(w.sessions, 0) AS worn_ever,
    w.last_on AS last_worn_on,
    o.state IS NULL AND w.sessions IS NULL AS is_undated,
    (
        SELECT string_agg(DISTINCT
            rule_in_games(p.department, t.sport, g.kind, g.purpose::VARCHAR), ' or ')
        FROM places AS p
        JOIN store.teams AS t USING (team)
        WHERE p.athlete_no = g.athlete_no AND p.is_in_scope
    ) AS rule,
    h.hurt_on
FROM guards AS g
JOIN store.athletes AS n USING (athlete_no)
LEFT JOIN orders AS o USING (guard_no)
LEFT JOIN missed AS m USING (guard_no)
LEFT JOIN remakes AS r ON r.guard = g.guard
LEFT JOIN since_fitted AS t USING (guard_no)
LEFT JOIN worn AS w USING (guard_no)
LEFT JOIN hurt AS h USING (guard_no)
WHERE o.state IS NOT NULL OR w.sessions IS NOT NULL OR g.guard_no NOT IN (
    SELECT guard_no FROM store.stages UNION ALL SELECT guard_no FROM worn_guards()
)
ORDER BY n.athlete, g.guard;
