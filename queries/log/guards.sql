-- question: Which guards could the athletes have worn in one session, and which last time?
-- scope: log
-- grain: one row per guard that was there by then, or that is recorded as worn in the session
-- columns:
--   guard VARCHAR         key
--   athlete VARCHAR       key
--   kind VARCHAR          guard kind
--   side VARCHAR          left, right, both or midline
--   is_worn BOOLEAN       recorded as worn in this session, or as not worn; NULL: not recorded
--   was_worn BOOLEAN      worn when the athlete last took part, or fitted since in place of one worn
WITH people AS (
    SELECT athlete_no
    FROM store.roster
    WHERE team = $team AND season = $season
      AND is_listed(joined_on, left_on, $day)
    UNION
    SELECT a.athlete_no
    FROM store.attendance AS a
    JOIN store.sessions AS s USING (session_no)
    WHERE s.session = $session
),
here AS (
    SELECT w.guard_no, w.worn IS DISTINCT FROM 'no' AS is_worn
    FROM store.wear AS w
    JOIN store.sessions AS s USING (session_no)
    WHERE s.session = $session
),
lately AS (
    SELECT a.athlete_no, arg_max(s.session_no, (s.starts_at, s.session_no)) AS session_no
    FROM store.sessions AS s
    JOIN store.attendance AS a USING (session_no)
    SEMI JOIN people AS p ON p.athlete_no = a.athlete_no
    WHERE s.team = $team AND s.season = $season AND a.part <> 'out'
      AND s.starts_at < $starts_at AND s.session IS DISTINCT FROM $session
    GROUP BY a.athlete_no
),
stamps AS (
    SELECT
        g.guard_no,
        count(q.guard_no) AS stages,
        bool_or(q.stage IN ('delivered', 'fitted') AND q.reached_at <= $starts_at) AS is_there,
        bool_or(q.stage = 'fitted' AND q.reached_at <= $starts_at) AS is_fitted,
        bool_or(q.stage IN ('retired', 'cancelled') AND q.reached_at <= $starts_at) AS is_over
    FROM store.guards AS g
    SEMI JOIN people AS p ON p.athlete_no = g.athlete_no
    LEFT JOIN store.stages AS q USING (guard_no)
    GROUP BY g.guard_no
),
before AS (
    SELECT DISTINCT w.guard_no
    FROM worn_guards() AS w
    JOIN store.sessions AS s USING (session_no)
    SEMI JOIN stamps AS k ON k.guard_no = w.guard_no
    WHERE s.starts_at < $starts_at
),
last_time AS (
    SELECT g.guard_no, g.guard, g.athlete_no
    FROM lately AS l
    JOIN worn_guards() AS w USING (session_no)
    JOIN store.guards AS g ON g.guard_no = w.guard_no AND g.athlete_no = l.athlete_no
),
made_since AS (
    SELECT g.guard_no, g.remake_of, g.athlete_no
    FROM store.guards AS g
    JOIN stamps AS k USING (guard_no)
    WHERE g.remake_of IS NOT NULL AND k.is_fitted AND NOT coalesce(k.is_over, false)
)
SELECT
    g.guard, a.athlete, g.kind,
    g.side::VARCHAR AS side,
    h.is_worn,
    NOT coalesce(k.is_over, false)
        AND g.guard NOT IN (
            SELECT remake_of FROM made_since AS m WHERE m.athlete_no = g.athlete_no
        )
        AND (
            g.guard_no IN (SELECT guard_no FROM last_time)
            OR g.guard_no IN (
                SELECT m.guard_no
                FROM made_since AS m
                JOIN last_time AS t ON t.guard = m.remake_of AND t.athlete_no = m.athlete_no
            )
        ) AS was_worn
FROM stamps AS k
JOIN store.guards AS g USING (guard_no)
JOIN store.athletes AS a USING (athlete_no)
LEFT JOIN here AS h USING (guard_no)
LEFT JOIN before AS b USING (guard_no)
WHERE h.guard_no IS NOT NULL
   OR (
       NOT coalesce(k.is_over, false)
       AND (k.is_there OR k.stages = 0 OR b.guard_no IS NOT NULL)
   )
ORDER BY a.athlete, g.kind, g.side, g.guard;
