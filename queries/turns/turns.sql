-- question: Whose turn is when, and what became of it?
-- scope: athletes, kinds
-- grain: one row per turn of an athlete of the scope, in the order of the draw
-- columns:
--   draw VARCHAR             key
--   turn INTEGER             place in the order
--   week INTEGER             week of printing, from 1
--   turn_on DATE             first day of that week
--   come_on DATE             day from which the turn has come: that day and the days it takes
--   athlete VARCHAR          key
--   name VARCHAR             as in roster; the key where not on that roster
--   team VARCHAR             key
--   department VARCHAR       key
--   kind VARCHAR             guard kind
--   side VARCHAR             left, right, both or midline
--   stratum VARCHAR          team and position group drawn in
--   earlier_injury VARCHAR   yes: a site that it covers was injured before the draw
--   drawn_on DATE            day of the draw
--   prints_per_week INTEGER  guards made a week
--   ready_days DOUBLE        days from the turn to the fitted guard
--   seed INTEGER             seed of the draw
--   board_number VARCHAR     number that the review board gave; NULL: none was needed
--   no_board_reason VARCHAR  why none was needed; NULL: it gave a number
--   jumped_on DATE           day it was made out of turn, once known; NULL: it was not
--   jump_reason VARCHAR      why
--   guard VARCHAR            the guard that was asked for, fitted first, else made first; NULL: none
--   stage VARCHAR            that it reached last; NULL: none
--   made_on DATE             day it was printed, or first known to be; NULL: not yet
--   fitted_on DATE           day it was fitted; NULL: not yet
--   left_on DATE             day the athlete left the roster, once known; NULL: is still on it
WITH places AS (
    SELECT *
    FROM asked_places($seasons, $departments, $teams, $sports, $sexes, $position_groups)
    QUALIFY row_number() OVER (PARTITION BY athlete_no ORDER BY season DESC, team) = 1
),
made AS (
    SELECT
        g.athlete_no, g.kind, g.guard,
        max(q.stage) FILTER (q.stage <> 'cancelled')::VARCHAR AS stage,
        min((q.reached_at AT TIME ZONE z.time_zone)::DATE)
            FILTER (q.stage IN ('printed', 'finished', 'shipped', 'delivered', 'fitted'))
            AS made_on,
        min((q.reached_at AT TIME ZONE z.time_zone)::DATE)
            FILTER (q.stage = 'fitted') AS fitted_on,
        min(q.reached_at) AS first_at
    FROM store.guards AS g
    JOIN athlete_zones() AS z USING (athlete_no)
    JOIN store.stages AS q USING (guard_no)
    WHERE g.purpose = 'preventive'
      AND (q.reached_at AT TIME ZONE z.time_zone)::DATE < $until
    GROUP BY g.athlete_no, g.kind, g.guard
    HAVING NOT bool_or(q.stage = 'cancelled') OR bool_or(q.stage = 'fitted')
    QUALIFY row_number() OVER (
        PARTITION BY g.athlete_no, g.kind ORDER BY fitted_on NULLS LAST, first_at, g.guard
    ) = 1
)
SELECT
    t.draw, t.turn, t.week,
    t.starts_on + 7 * (t.week - 1) AS turn_on,
    t.starts_on + 7 * (t.week - 1) + ceil(t.ready_days)::INTEGER AS come_on,
    n.athlete,
    coalesce(p.name, n.athlete) AS name,
    p.team, p.department, t.kind,
    t.side::VARCHAR AS side,
    t.stratum,
    t.earlier_injury::VARCHAR AS earlier_injury,
    t.drawn_on, t.prints_per_week, t.ready_days, t.seed, t.board_number, t.no_board_reason,
    CASE WHEN t.jumped_on < $until THEN t.jumped_on END AS jumped_on,
    CASE WHEN t.jumped_on < $until THEN t.jump_reason END AS jump_reason,
    m.guard, m.stage, m.made_on, m.fitted_on,
    CASE WHEN p.left_on < $until THEN p.left_on END AS left_on
FROM store.turns AS t
JOIN places AS p USING (athlete_no)
JOIN store.athletes AS n USING (athlete_no)
LEFT JOIN made AS m USING (athlete_no, kind)
WHERE t.drawn_on < $until
  AND t.kind IN (FROM asked_kinds($kinds, $areas))
  AND is_asked_side($sides, t.side)
ORDER BY t.drawn_on DESC, t.draw DESC, t.turn;
