-- question: After each injury, how long was its athlete out, back bare and back in a return guard, and
--   what came after: in days, and in games of the team?
-- works on: scope
-- scope: groups
-- grain: one row per clock, state, stretch of ticks in it and what came after
-- columns:
--   clock VARCHAR   days since the injury, or the team's games of the season since then
--   state VARCHAR   out, bare or guarded
--   entry BIGINT    the tick before the stretch
--   leaving BIGINT  its last tick
--   after VARCHAR   out, bare, guarded or hurt again; NULL: nothing more is known
--   number BIGINT   how many
WITH games AS (
    SELECT
        r.injury, s.session_no, s.played_on,
        row_number() OVER (PARTITION BY r.injury ORDER BY s.starts_at, s.session_no) AS tick
    FROM returns AS r
    JOIN season_sessions AS s
        ON s.team = r.team AND s.season = r.season AND s.setting = 'game'
        AND s.played_on > r.occurred_on AND s.played_on <= r.ended_on
),
clocks AS (
    SELECT
        injury, 'days' AS clock, returned_on - occurred_on AS back,
        coalesce(again_on, greatest(ended_on, returned_on), $until::DATE - 1) - occurred_on AS last,
        again_on IS NOT NULL AS is_again
    FROM returns
    UNION ALL
    SELECT
        r.injury, 'games',
        min(g.tick) FILTER (g.played_on >= r.returned_on),
        coalesce(
            min(g.tick) FILTER (g.session_no = r.again_no),
            min(g.tick) FILTER (g.played_on >= r.again_on),
            max(g.tick)
        ),
        r.again_on <= max(g.played_on)
    FROM returns AS r
    JOIN games AS g USING (injury)
    GROUP BY r.injury, r.returned_on, r.again_on, r.again_no
),
changes AS (
    SELECT injury, clock, 1 AS tick, 'out' AS state, 0 AS rank FROM clocks
    UNION ALL
    SELECT injury, clock, back, 'bare', 1 FROM clocks WHERE back IS NOT NULL
    UNION ALL
    SELECT
        e.injury, 'days', e.played_on - r.occurred_on,
        CASE WHEN bool_or(e.guarded) THEN 'guarded' ELSE 'bare' END, 2
    FROM return_exposures AS e
    JOIN returns AS r USING (injury)
    WHERE e.is_counted
    GROUP BY e.injury, e.played_on - r.occurred_on
    UNION ALL
    SELECT e.injury, 'games', g.tick, CASE WHEN bool_or(e.guarded) THEN 'guarded' ELSE 'bare' END, 2
    FROM return_exposures AS e
    JOIN games AS g USING (injury, session_no)
    WHERE e.is_counted
    GROUP BY e.injury, g.tick
),
states AS (
    SELECT injury, clock, tick, max_by(state, rank) AS state
    FROM changes
    JOIN clocks USING (injury, clock)
    WHERE tick BETWEEN 1 AND last
    GROUP BY injury, clock, tick
),
begun AS (
    SELECT *
    FROM states
    QUALIFY state IS DISTINCT FROM lag(state) OVER (PARTITION BY injury, clock ORDER BY tick)
),
stretches AS (
    SELECT
        clock, state, tick - 1 AS entry,
        coalesce(lead(tick) OVER w - 1, last) AS leaving,
        coalesce(lead(state) OVER w, CASE WHEN is_again THEN 'hurt again' END) AS after
    FROM begun
    JOIN clocks USING (injury, clock)
    WINDOW w AS (PARTITION BY injury, clock ORDER BY tick)
)
SELECT *, count(*) AS number
FROM stretches
GROUP BY ALL
ORDER BY ALL NULLS LAST;
