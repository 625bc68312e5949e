-- Each site-exposure on its clock, with whether the site is followed at that tick.
-- A site is followed through a season from its first exposure in the view until an injury to it is
-- recorded (ended_at: in a session; ended_on: outside one). With `by_team` the clock counts the
-- team's sessions, else the athlete's own; both start anew each season.
CREATE MACRO followed_sites(
    seasons, until, departments, teams, sports, sexes, settings, position_groups,
    kinds, areas, sides, purpose, outcome, by_team
) AS TABLE
WITH exposures AS (
    SELECT *
    FROM site_exposures(
        seasons, until, departments, teams, sports, sexes, settings, position_groups,
        kinds, areas, sides, purpose, outcome
    )
),
team_clock AS (
    SELECT
        session_no,
        row_number() OVER (PARTITION BY team, season ORDER BY starts_at, session_no) AS tick
    FROM scope_sessions(seasons, until, departments, teams, sports, sexes, settings)
),
ticked AS (
    SELECT
        e.*,
        CASE WHEN by_team THEN e.team ELSE '' END AS clock_of,
        CASE
            WHEN by_team THEN t.tick
            ELSE row_number() OVER (
                PARTITION BY e.athlete_no, e.season, e.area, e.side
                ORDER BY e.starts_at, e.session_no
            )
        END AS tick
    FROM exposures AS e
    JOIN team_clock AS t USING (session_no)
),
opened AS (
    SELECT
        athlete_no, area, side, season,
        min(starts_at) AS opened_at,
        min(played_on) AS opened_on
    FROM ticked
    WHERE set_aside IS NULL
    GROUP BY ALL
),
ended AS (
    SELECT
        o.athlete_no, o.area, o.side, o.season,
        min(i.starts_at) FILTER (i.starts_at >= o.opened_at) AS ended_at,
        min(i.occurred_on) FILTER (i.session_no IS NULL AND i.occurred_on >= o.opened_on)
            AS ended_on
    FROM opened AS o
    JOIN site_injuries(until) AS i USING (athlete_no, area, side)
    GROUP BY ALL
),
followed AS (
    SELECT
        t.*,
        n.ended_at,
        n.ended_on,
        t.set_aside IS NULL
            AND coalesce(t.starts_at <= n.ended_at, true)
            AND coalesce(t.played_on <= n.ended_on, true) AS is_followed
    FROM ticked AS t
    LEFT JOIN ended AS n USING (athlete_no, area, side, season)
)
SELECT * FROM followed;
