-- The team's first game of that season after each order was asked for.
CREATE OR REPLACE TEMP MACRO first_games() AS TABLE
SELECT o.guard_no, min(s.starts_at) AS first_game_at
FROM scoped_orders AS o
JOIN store.sessions AS s USING (team, season)
WHERE s.setting = 'game' AND s.starts_at > o.requested_at
GROUP BY o.guard_no;

-- Of every guard of the scope, whether a stage or a fitting of it, or a session it was worn in, is
-- known by `until`. One without either at any time is undated: no day makes it known.
CREATE OR REPLACE TEMP MACRO news_of_guards(until) AS TABLE
WITH news AS (
    SELECT
        g.guard_no,
        (s.reached_at AT TIME ZONE g.time_zone)::DATE < until AS is_known,
        s.stage
    FROM scoped_guards AS g
    JOIN store.stages AS s USING (guard_no)
    UNION ALL
    SELECT g.guard_no, s.played_on < until, NULL
    FROM scoped_guards AS g
    JOIN worn_guards() AS w USING (guard_no)
    JOIN store.sessions AS s USING (session_no)
)
SELECT
    g.guard_no,
    coalesce(bool_or(n.is_known AND n.stage IS NOT NULL), false) AS is_staged,
    coalesce(bool_or(n.is_known AND n.stage = 'fitted'), false) AS is_fitted,
    coalesce(bool_or(n.is_known AND n.stage IS NULL), false) AS is_worn,
    count(n.guard_no) = 0 AS is_undated
FROM scoped_guards AS g
LEFT JOIN news AS n USING (guard_no)
GROUP BY g.guard_no;

-- What was asked for in each order's place: the first by day, and how many there are. It may be for
-- a later season than the guard, and is seen on the days of the guard's department; a guard of
-- another athlete is never in its place, nor is one that was called off before it was fitted, nor
-- one asked for before the day on which the guard itself was fitted: a check lists those.
CREATE OR REPLACE TEMP MACRO successors(until) AS TABLE
WITH asked_anew AS (
    SELECT
        o.guard_no,
        g.guard AS successor,
        g.remake_reason::VARCHAR AS reason,
        remake_or_replacement(g.remake_reason) AS counts_as,
        min((q.reached_at AT TIME ZONE o.time_zone)::DATE) AS successor_asked_on,
        min((q.reached_at AT TIME ZONE o.time_zone)::DATE) FILTER (q.stage = 'fitted')
            AS successor_fitted_on,
        min((q.reached_at AT TIME ZONE o.time_zone)::DATE) FILTER (q.stage = 'retired')
            AS successor_retired_on,
        any_value((o.fitted_at AT TIME ZONE o.time_zone)::DATE) AS fitted_on,
        bool_or(q.stage = 'cancelled') AS is_cancelled
    FROM scoped_orders AS o
    JOIN store.guards AS g ON g.remake_of = o.guard AND g.athlete_no = o.athlete_no
    JOIN store.stages AS q ON q.guard_no = g.guard_no
    WHERE g.guard <> o.guard AND (q.reached_at AT TIME ZONE o.time_zone)::DATE < until
    GROUP BY o.guard_no, g.guard, g.remake_reason
)
SELECT
    * EXCLUDE (is_cancelled, fitted_on),
    count(*) OVER (PARTITION BY guard_no) AS successors,
    count(*) FILTER (counts_as = 'remake') OVER (PARTITION BY guard_no) AS remakes
FROM asked_anew
WHERE (NOT is_cancelled OR successor_fitted_on IS NOT NULL)
  AND coalesce(successor_asked_on >= fitted_on, true)
QUALIFY row_number() OVER (PARTITION BY guard_no ORDER BY successor_asked_on, successor) = 1;
