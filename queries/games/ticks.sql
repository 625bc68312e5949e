-- question: At each tick of the clock, how many sites were at risk, guarded or not, and how many
--   were injured?
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
-- grain: one row per tick, group and stratum (sport, sex, position group) with someone at risk
-- columns:
--   guarded BOOLEAN          the guard was worn at this tick
--   sport VARCHAR            stratum
--   sex VARCHAR              stratum
--   position_group VARCHAR   stratum; NULL where not recorded
--   tick BIGINT              number of the session on the clock, from 1, anew each season
--   at_risk BIGINT           sites followed that took part in this tick
--   injuries BIGINT          of them, injured in it
--   entered BIGINT           of them, not at risk in this group at the tick before
--   changed BIGINT           of the uninjured, in the other group at the next tick
--   site_injury BIGINT       ended by an injury to the site that is not an event of this clock
--   other_injury BIGINT      ended by an injury elsewhere from which no session followed
--   left_roster BIGINT       ended by leaving the roster
--   set_aside BIGINT         next tick is in neither group, or the team's next tick was missed
--   no_more BIGINT           no further session yet, or the season was over
--   new_sites BIGINT         athletes' sites at risk in this group for the first time
--   new_athletes BIGINT      athletes at risk in this group for the first time
WITH followed AS (
    SELECT *
    FROM followed_sites(
        $seasons, $until, $departments, $teams, $sports, $sexes, $settings, $position_groups,
        $kinds, $areas, $sides, $purpose, $outcome, $by_team
    )
),
out_for_good AS (
    SELECT DISTINCT o.athlete_no, o.season
    FROM (
        SELECT athlete_no, season, max(played_on) AS last_on
        FROM followed
        WHERE set_aside IS NULL
        GROUP BY ALL
    ) AS o
    JOIN site_injuries($until) AS i USING (athlete_no)
    WHERE i.time_loss
      AND i.occurred_on >= o.last_on - 1
      AND (i.is_open OR i.returned_on > (
          SELECT max(s.played_on)
          FROM store.sessions AS s
          WHERE s.season = o.season AND s.played_on < $until
      ))
),
gone AS (
    SELECT athlete_no, season, max(left_on) AS left_on
    FROM store.roster
    WHERE left_on < $until
    GROUP BY ALL
),
chained AS (
    SELECT
        *,
        lag(tick) OVER walk AS tick_before,
        lag(guarded) OVER walk AS guarded_before,
        lag(is_followed) OVER walk AS followed_before,
        lead(tick) OVER walk AS tick_after,
        lead(guarded) OVER walk AS guarded_after,
        lead(is_followed) OVER walk AS followed_after,
        lead(starts_at) OVER walk AS starts_after,
        lead(played_on) OVER walk AS played_after
    FROM followed
    WINDOW walk AS (
        PARTITION BY athlete_no, season, clock_of, area, side ORDER BY tick
    )
),
fates AS (
    SELECT
        guarded, sport, sex, position_group, tick, injured,
        NOT coalesce(
            followed_before AND tick_before = tick - 1 AND guarded_before = guarded, false
        ) AS has_entered,
        CASE
            WHEN injured THEN 'injured'
            WHEN any_injury THEN 'site injury'
            WHEN followed_after AND tick_after = tick + 1 AND guarded_after = guarded THEN 'stays'
            WHEN followed_after AND tick_after = tick + 1 THEN 'changed'
            WHEN ended_at > starts_at AND coalesce(ended_at < starts_after, true)
            THEN 'site injury'
            WHEN ended_on >= played_on AND coalesce(ended_on < played_after, true)
            THEN 'site injury'
            WHEN tick_after IS NOT NULL THEN 'set aside'
            WHEN o.athlete_no IS NOT NULL THEN 'other injury'
            WHEN g.left_on IS NOT NULL THEN 'left roster'
            ELSE 'no more'
        END AS fate,
        row_number() OVER (
            PARTITION BY guarded, athlete_no, area, side ORDER BY starts_at, session_no
        ) = 1 AS is_new_site,
        row_number() OVER (
            PARTITION BY guarded, athlete_no ORDER BY starts_at, session_no, area, side
        ) = 1 AS is_new_athlete
    FROM chained AS c
    LEFT JOIN out_for_good AS o USING (athlete_no, season)
    LEFT JOIN gone AS g USING (athlete_no, season)
    WHERE is_followed
)
SELECT
    guarded,
    sport,
    sex,
    position_group,
    tick,
    count(*) AS at_risk,
    count(*) FILTER (fate = 'injured') AS injuries,
    count(*) FILTER (has_entered) AS entered,
    count(*) FILTER (fate = 'changed') AS changed,
    count(*) FILTER (fate = 'site injury') AS site_injury,
    count(*) FILTER (fate = 'other injury') AS other_injury,
    count(*) FILTER (fate = 'left roster') AS left_roster,
    count(*) FILTER (fate = 'set aside') AS set_aside,
    count(*) FILTER (fate = 'no more') AS no_more,
    count(*) FILTER (is_new_site) AS new_sites,
    count(*) FILTER (is_new_athlete) AS new_athletes
FROM fates
GROUP BY guarded, sport, sex, position_group, tick
ORDER BY tick, guarded, sport, sex, position_group NULLS LAST;
