-- question: While followed through their injuries, when was each athlete's site at risk, guarded or
--   not, and when was it injured?
-- works on: scope
-- scope: sites, clock
-- grain: one row per group, athlete and stretch of ticks at risk (injuries 0), and one row per
--   group, athlete and tick with injuries (sites 0)
-- columns:
--   guarded BOOLEAN     the guard was worn
--   athlete_no INTEGER  the athlete's number
--   entry BIGINT        the tick before the stretch, or before the injury
--   leaving BIGINT      the last tick of the stretch, or the tick of the injury
--   sites BIGINT        sites of the athlete that the stretch stands for
--   injuries BIGINT     injuries to the athlete's sites at this tick; every record counts
WITH marked AS (SELECT * FROM marked_sites('through')),
eventful AS (SELECT DISTINCT athlete_no, area, side FROM marked),
ticked AS (
    SELECT
        c.athlete_no, c.season, c.walk, c.step, c.entry, c.tick, x.area, x.side,
        coalesce(m.guarded, false) AS guarded
    FROM clock_exposures AS c
    JOIN eventful AS x USING (athlete_no)
    LEFT JOIN marked AS m
        ON m.session_no = c.session_no AND m.athlete_no = c.athlete_no
        AND m.area = x.area AND m.side = x.side
    WHERE m.set_aside IS NULL
),
runs AS (
    SELECT
        guarded, athlete_no, season, walk, area, side, entry, tick, 1 AS sites,
        step - row_number() OVER (
            PARTITION BY athlete_no, season, walk, area, side, guarded ORDER BY step
        ) AS run
    FROM ticked
    UNION ALL
    SELECT
        false, c.athlete_no, c.season, c.walk, NULL, NULL, c.entry, c.tick,
        (SELECT count(*) FROM scoped_sites) - coalesce(e.eventful, 0) AS sites,
        c.step - row_number() OVER (
            PARTITION BY c.athlete_no, c.season, c.walk ORDER BY c.step
        )
    FROM clock_exposures AS c
    LEFT JOIN (SELECT athlete_no, count(*) AS eventful FROM eventful GROUP BY athlete_no) AS e
        USING (athlete_no)
),
spells AS (
    SELECT
        guarded, athlete_no, min(entry) AS entry, max(tick) AS leaving, any_value(sites) AS sites
    FROM runs
    WHERE sites > 0
    GROUP BY guarded, athlete_no, season, walk, area, side, run
),
hurt AS (
    SELECT m.guarded, m.athlete_no, c.tick, count(*) AS injuries
    FROM marked AS m
    JOIN clock_exposures AS c USING (session_no, athlete_no)
    JOIN site_injuries($until) AS i
        ON i.session_no = m.session_no AND i.athlete_no = m.athlete_no
        AND i.area = m.area AND i.side = m.side
    WHERE m.set_aside IS NULL AND ($outcome = 'any' OR i.time_loss)
    GROUP BY m.guarded, m.athlete_no, c.tick
)
SELECT guarded, athlete_no, entry, leaving, sum(sites)::BIGINT AS sites, 0::BIGINT AS injuries
FROM spells
GROUP BY guarded, athlete_no, entry, leaving
UNION ALL
SELECT guarded, athlete_no, tick - 1, tick, 0, injuries
FROM hurt
ORDER BY guarded, athlete_no, entry, leaving, injuries;
