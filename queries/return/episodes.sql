-- question: What became of each injury that cost time at a site guards can cover: how long out, which
--   return guard, back in what, hurt again?
-- works on: scope
-- scope: groups
-- grain: one row per injury
-- columns:
--   injury VARCHAR          key
--   athlete VARCHAR         key
--   name VARCHAR            as in roster
--   team VARCHAR            key
--   department VARCHAR      key
--   area VARCHAR            body area
--   side VARCHAR            left, right, both or midline
--   occurred_on DATE        day of the injury
--   returned_on DATE        day of the return, once known; NULL: still out
--   is_open BOOLEAN         no return is known
--   is_listed BOOLEAN       on that roster on the last day known
--   days_lost BIGINT        full days out; so far, while open
--   games_missed BIGINT     the team's games of that season while out; so far, while open
--   guard VARCHAR           first guard made for return that was asked for after it; NULL: none
--   requested_on DATE       day on which it was asked for
--   fitted_on DATE          day on which it was fitted; NULL: not yet
--   called_off_on DATE      day on which it was cancelled or retired without being fitted
--   game_on DATE            first game in which it was worn; NULL: none yet
--   in_hand_on DATE         first day with any return guard for the site in hand; NULL: none
--   back_in VARCHAR         guarded or bare in the first session after the return, or not known
--   again_on DATE           hurt there again, within that season
WITH stamps AS (
    SELECT
        g.guard_no, g.guard, g.athlete_no, g.kind, g.side, z.time_zone,
        coalesce(min(s.reached_at) FILTER (s.stage = 'requested'), min(s.reached_at))
            AS requested_at,
        min(s.reached_at) FILTER (s.stage = 'fitted') AS fitted_at,
        min(s.reached_at) FILTER (s.stage IN ('cancelled', 'retired')) AS over_at
    FROM store.guards AS g
    JOIN athlete_zones() AS z USING (athlete_no)
    JOIN store.stages AS s USING (guard_no)
    WHERE g.purpose = 'return' AND g.remake_of IS NULL
      AND list_contains($kinds, g.kind)
      AND (s.reached_at AT TIME ZONE z.time_zone)::DATE < $until
    GROUP BY ALL
),
orders AS (
    SELECT
        r.injury, s.guard_no, s.guard,
        (s.requested_at AT TIME ZONE s.time_zone)::DATE AS requested_on,
        (s.fitted_at AT TIME ZONE s.time_zone)::DATE AS fitted_on,
        CASE WHEN s.fitted_at IS NULL THEN (s.over_at AT TIME ZONE s.time_zone)::DATE END
            AS called_off_on
    FROM stamps AS s
    JOIN store.kinds AS k USING (kind)
    JOIN returns AS r
        ON r.athlete_no = s.athlete_no AND r.area = k.area::VARCHAR
        AND (s.side = 'both' OR list_contains(r.sides, s.side::VARCHAR) OR r.sides = ['midline'])
        AND r.occurred_on <= (s.requested_at AT TIME ZONE s.time_zone)::DATE
    QUALIFY row_number() OVER (PARTITION BY s.guard_no ORDER BY r.occurred_on DESC, r.injury) = 1
),
first_orders AS (
    SELECT * FROM orders
    QUALIFY row_number() OVER (PARTITION BY injury ORDER BY requested_on, guard) = 1
),
first_games AS (
    SELECT w.guard_no, min(s.played_on) AS game_on
    FROM worn_guards() AS w
    JOIN first_orders AS o USING (guard_no)
    JOIN store.sessions AS s USING (session_no)
    WHERE s.setting = 'game' AND s.played_on < $until
    GROUP BY w.guard_no
),
missed AS (
    SELECT r.injury, count(*) AS games
    FROM returns AS r
    JOIN season_sessions AS s
        ON s.team = r.team AND s.season = r.season AND s.setting = 'game'
        AND s.played_on > r.occurred_on AND coalesce(s.played_on < r.returned_on, true)
    GROUP BY r.injury
),
first_back AS (
    SELECT
        injury,
        CASE WHEN min_by(guarded, (starts_at, session_no)) THEN 'guarded' ELSE 'bare' END
            AS back_in
    FROM return_exposures
    WHERE is_counted
    GROUP BY injury
),
held AS (SELECT injury, min(in_hand_on) AS in_hand_on FROM return_guards GROUP BY injury)
SELECT
    r.injury, a.athlete,
    coalesce(r.name, a.athlete) AS name,
    r.team, r.department, r.area,
    CASE WHEN len(r.sides) > 1 THEN 'both' ELSE r.sides[1] END AS side,
    r.occurred_on, r.returned_on, r.is_open,
    r.ended_on = $until::DATE - 1 AS is_listed,
    days_lost(r.occurred_on, r.returned_on, $until) AS days_lost,
    coalesce(m.games, 0) AS games_missed,
    o.guard, o.requested_on, o.fitted_on, o.called_off_on, g.game_on, h.in_hand_on,
    coalesce(b.back_in, 'not known') AS back_in,
    r.again_on
FROM returns AS r
JOIN store.athletes AS a USING (athlete_no)
LEFT JOIN first_orders AS o USING (injury)
LEFT JOIN first_games AS g USING (guard_no)
LEFT JOIN missed AS m USING (injury)
LEFT JOIN held AS h USING (injury)
LEFT JOIN first_back AS b USING (injury)
ORDER BY r.occurred_on, r.injury;
