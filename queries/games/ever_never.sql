-- question: The misleading tally: curves of sites that were ever guarded in the season and of sites
--   that never were, each from its first tick, whatever was worn then?
-- works on: scope
-- params:
--   seasons VARCHAR[]          seasons of the scope, NULL for all (so too the lists below)
--   until DATE                 first day not yet known (the day after "through")
--   departments VARCHAR[]      departments
--   teams VARCHAR[]            teams
--   sports VARCHAR[]           sports
--   sexes VARCHAR[]            sexes of the teams
--   settings VARCHAR[]         sessions that tick the clock: game, practice
--   position_groups VARCHAR[]  position groups, as in roster
--   kinds VARCHAR[]            guard kinds; never NULL
--   areas VARCHAR[]            body areas, of those the kinds cover
--   sides VARCHAR[]            sides
--   purpose VARCHAR            preventive, return or all
--   outcome VARCHAR            time loss or any
--   by_team BOOLEAN            the clock counts the team's sessions, not the athlete's own
-- grain: one row per group and tick with someone at risk
-- columns:
--   ever BOOLEAN     the site was guarded at some followed tick of the season
--   tick BIGINT      number of the session on the clock, from 1, anew each season
--   at_risk BIGINT   sites followed that took part in this tick
--   injuries BIGINT  of them, injured in it
WITH followed AS (
    SELECT *
    FROM followed_sites($purpose, $by_team, true)
),
clock AS (
    SELECT *
    FROM clock_exposures($by_team)
),
eventful AS (
    SELECT
        bool_or(guarded AND is_followed) OVER (
            PARTITION BY athlete_no, season, area, side
        ) AS ever,
        tick, injured, is_followed
    FROM followed
),
plain AS (
    SELECT
        c.tick,
        (SELECT count(*) FROM scoped_sites) - coalesce(e.eventful, 0)
            AS sites
    FROM clock AS c
    LEFT JOIN (
        SELECT athlete_no, count(DISTINCT (area, side)) AS eventful
        FROM followed
        GROUP BY athlete_no
    ) AS e USING (athlete_no)
    WHERE $purpose <> 'return'
),
pieces AS (
    SELECT ever, tick, count(*) AS at_risk, count(*) FILTER (injured) AS injuries
    FROM eventful
    WHERE is_followed
    GROUP BY ever, tick
    UNION ALL
    SELECT false, tick, sum(sites), 0 FROM plain GROUP BY tick
)
SELECT ever, tick, sum(at_risk)::BIGINT AS at_risk, sum(injuries)::BIGINT AS injuries
FROM pieces
GROUP BY ever, tick
HAVING sum(at_risk) > 0
ORDER BY tick, ever;
