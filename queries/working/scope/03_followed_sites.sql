-- Athlete-exposures on a clock: each takes the ticks after `entry` up to `tick`. One session is one
-- tick, or as many as plays or minutes (begun ones) were recorded for the athlete in it; without
-- that record it is not on the clock. The athlete's own ticks of a season add up in the order they
-- were played; season games are numbered as the team's. `step` numbers the sessions of one clock.
-- `walk` names what it runs over beside the athlete and the season (the team, or nothing).
CREATE OR REPLACE TEMP TABLE clock_exposures AS
WITH team_clock AS (
    SELECT
        session_no, session, team, season, sport, sex, setting, block,
        row_number() OVER (PARTITION BY team, season ORDER BY starts_at, session_no) AS team_tick
    FROM scoped_sessions
),
counted AS (
    SELECT
        e.*,
        t.* EXCLUDE (session_no),
        CASE WHEN $clock = 'season-games' THEN t.team ELSE '' END AS walk,
        CASE $clock
            WHEN 'plays' THEN e.plays
            WHEN 'minutes' THEN ceil(e.minutes)::INTEGER
            ELSE 1
        END AS ticks
    FROM scoped_exposures AS e
    JOIN team_clock AS t USING (session_no)
    WHERE ticks > 0
)
SELECT
    * EXCLUDE (team_tick, ticks),
    CASE WHEN walk = '' THEN row_number() OVER own ELSE team_tick END AS step,
    CASE WHEN walk = '' THEN sum(ticks) OVER own ELSE team_tick END::BIGINT AS tick,
    tick - ticks AS entry
FROM counted
WINDOW own AS (PARTITION BY athlete_no, season ORDER BY starts_at, session_no);

-- Each site-exposure on its clock, with whether the site is followed at that tick; of the eventful
-- sites only, or of all. Eventful are sites at which something was worn in a session that ticks the
-- clock, or to which an injury is recorded anywhere; all others are bare and uninjured throughout.
-- A site is followed through a season from its first exposure in the view
-- until an injury to it is recorded (ended_at: in a session; ended_on: outside one).
CREATE OR REPLACE TEMP MACRO followed_sites(purpose, only_eventful) AS TABLE
WITH marked AS (SELECT * FROM marked_sites(purpose)),
sites AS (
    SELECT athlete_no, area, side FROM marked
    UNION
    SELECT i.athlete_no, i.area, i.side
    FROM scoped_injuries AS i
    UNION
    SELECT c.athlete_no, x.area, x.side
    FROM (SELECT DISTINCT athlete_no FROM clock_exposures WHERE NOT only_eventful) AS c
    CROSS JOIN scoped_sites AS x
),
ticked AS (
    SELECT
        c.*,
        x.area, x.side,
        coalesce(m.injured, false) AS injured,
        coalesce(m.any_injury, false) AS any_injury,
        coalesce(m.guarded, false) AS guarded,
        CASE
            WHEN m.session_no IS NOT NULL THEN m.set_aside
            WHEN purpose = 'return' THEN 'no earlier injury to the site'
        END AS set_aside
    FROM clock_exposures AS c
    JOIN sites AS x USING (athlete_no)
    LEFT JOIN marked AS m
        ON m.session_no = c.session_no AND m.athlete_no = c.athlete_no
        AND m.area = x.area AND m.side = x.side
),
opened AS (
    SELECT
        athlete_no, area, side, season,
        min(starts_at) AS opened_at,
        min(played_on) AS opened_on
    FROM ticked
    WHERE set_aside IS NULL
    GROUP BY athlete_no, area, side, season
),
ended AS (
    SELECT
        o.athlete_no, o.area, o.side, o.season,
        min(i.starts_at) FILTER (i.starts_at >= o.opened_at) AS ended_at,
        min(i.occurred_on) FILTER (i.session_no IS NULL AND i.occurred_on >= o.opened_on)
            AS ended_on
    FROM opened AS o
    JOIN scoped_injuries AS i USING (athlete_no, area, side)
    GROUP BY o.athlete_no, o.area, o.side, o.season
)
SELECT
    t.*,
    n.ended_at, n.ended_on,
    t.set_aside IS NULL
        AND coalesce(t.starts_at <= n.ended_at, true)
        AND coalesce(t.played_on <= n.ended_on, true) AS is_followed
FROM ticked AS t
LEFT JOIN ended AS n USING (athlete_no, area, side, season);

CREATE OR REPLACE TEMP TABLE eventful_sites AS
SELECT * FROM followed_sites($purpose, true);
