-- question: At each tick of the clock, how many sites were at risk, guarded or not, and how many
--   were injured?
-- works on: scope
-- scope: groups, clock
-- grain: one row per tick, group and stratum (sport, sex, position group) with someone at risk, at
--   each tick where anything begins or ends; and one row per group (tick NULL) that counts its
--   athletes and sites
-- columns:
--   guarded BOOLEAN          the guard was worn at this tick
--   sport VARCHAR            stratum
--   sex VARCHAR              stratum
--   position_group VARCHAR   stratum; NULL where not recorded
--   tick BIGINT              number on the clock, from 1, anew each season
--   width BIGINT             ticks up to this one for which the row stands: 1, or more where nobody
--                            came or went
--   at_risk BIGINT           sites followed that took part in this tick
--   injuries BIGINT          of them, injured in it
--   entered BIGINT           of them, not at risk in this group at the tick before
--   changed BIGINT           of the uninjured, in the other group at the next tick
--   site_injury BIGINT       ended by an injury to the site that is not an event of this clock
--   other_injury BIGINT      ended by an injury elsewhere from which no session followed
--   left_roster BIGINT       ended by leaving the roster
--   set_aside BIGINT         next tick is in neither group, or the team's next tick was missed
--   no_more BIGINT           no further session yet, or the season was over
--   athletes BIGINT          athletes of the group; only where tick is NULL
--   sites BIGINT             athletes' sites of the group; only where tick is NULL
--   horizon BIGINT           ticks that four in five athletes have at most in a season, whatever
--                            they wore: the 80th percentile; only where tick is NULL
WITH plain_sites AS (
    -- Sites without a story are alike within an athlete: one row each tick stands for all of them.
    SELECT
        c.*,
        (SELECT count(*) FROM scoped_sites) - coalesce(e.eventful, 0) AS sites
    FROM clock_exposures AS c
    LEFT JOIN (
        SELECT athlete_no, count(DISTINCT (area, side)) AS eventful FROM eventful_sites GROUP BY ALL
    ) AS e USING (athlete_no)
    WHERE $purpose <> 'return' AND sites > 0
),
walked AS (
    SELECT
        athlete_no, season, walk, area, side, sport, sex, position_group, entry, tick, starts_at,
        played_on, guarded, injured, any_injury, is_followed, ended_at, ended_on, 1 AS sites
    FROM eventful_sites
    UNION ALL
    SELECT
        athlete_no, season, walk, NULL, NULL, sport, sex, position_group, entry, tick, starts_at,
        played_on, false, false, false, true, NULL, NULL, sites
    FROM plain_sites
),
last_days AS (
    SELECT athlete_no, season, max(played_on) AS last_on
    FROM walked
    WHERE is_followed
    GROUP BY athlete_no, season
),
out_for_good AS (
    SELECT DISTINCT d.athlete_no, d.season
    FROM last_days AS d
    JOIN (
        SELECT season, max(played_on) AS over_on
        FROM store.sessions
        WHERE played_on < $until
        GROUP BY season
    ) AS s USING (season)
    JOIN site_injuries($until) AS i USING (athlete_no)
    WHERE i.time_loss
      AND i.occurred_on BETWEEN d.last_on - 1 AND s.over_on
      AND (i.is_open OR i.returned_on > s.over_on)
),
gone AS (
    SELECT athlete_no, season, max(left_on) AS left_on
    FROM store.roster
    WHERE left_on < $until
    GROUP BY athlete_no, season
),
chained AS (
    SELECT
        *,
        lag(tick) OVER w AS tick_before,
        lag(guarded) OVER w AS guarded_before,
        lag(is_followed) OVER w AS followed_before,
        lead(tick) OVER w AS tick_after,
        lead(entry) OVER w AS entry_after,
        lead(guarded) OVER w AS guarded_after,
        lead(is_followed) OVER w AS followed_after,
        lead(starts_at) OVER w AS starts_after,
        lead(played_on) OVER w AS played_after
    FROM walked
    WINDOW w AS (PARTITION BY athlete_no, season, walk, area, side ORDER BY tick)
),
fates AS (
    SELECT
        c.athlete_no, area, side, sites, guarded, sport, sex, position_group, entry, tick,
        NOT coalesce(
            followed_before AND tick_before = entry AND guarded_before = guarded, false
        ) AS has_entered,
        CASE
            WHEN injured THEN 'injured'
            WHEN any_injury THEN 'site injury'
            WHEN followed_after AND entry_after = tick AND guarded_after = guarded THEN 'stays'
            WHEN followed_after AND entry_after = tick THEN 'changed'
            WHEN ended_at > starts_at AND coalesce(ended_at < starts_after, true)
            THEN 'site injury'
            WHEN ended_on >= played_on AND coalesce(ended_on < played_after, true)
            THEN 'site injury'
            WHEN tick_after IS NOT NULL THEN 'set aside'
            WHEN o.athlete_no IS NOT NULL THEN 'other injury'
            WHEN g.left_on IS NOT NULL THEN 'left roster'
            ELSE 'no more'
        END AS fate
    FROM chained AS c
    LEFT JOIN out_for_good AS o USING (athlete_no, season)
    LEFT JOIN gone AS g USING (athlete_no, season)
    WHERE is_followed
),
seasons AS (
    SELECT max(tick) AS ticks FROM clock_exposures GROUP BY athlete_no, season, walk
),
people AS (
    SELECT guarded, athlete_no, sum(sites) AS sites
    FROM (
        SELECT guarded, athlete_no, area, side, max(sites) AS sites
        FROM fates
        GROUP BY guarded, athlete_no, area, side
    )
    GROUP BY guarded, athlete_no
),
-- Who is at risk changes just after a tick: `more` come, or fewer. Every stratum has all of them.
changes AS (
    SELECT
        guarded, sport, sex, position_group, entry AS after, sites AS more,
        has_entered::INTEGER * sites AS entered, NULL AS fate
    FROM fates
    UNION ALL
    SELECT guarded, sport, sex, position_group, tick, -sites, 0, fate FROM fates
    UNION ALL
    SELECT s.*, t.after, 0, 0, NULL
    FROM (SELECT DISTINCT guarded, sport, sex, position_group FROM fates) AS s
    CROSS JOIN (SELECT entry AS after FROM fates UNION SELECT tick FROM fates) AS t
),
summed AS (
    SELECT
        guarded, sport, sex, position_group, after, sum(more) AS more, sum(entered) AS entered,
        -sum(more) FILTER (fate = 'injured') AS injuries,
        -sum(more) FILTER (fate = 'changed') AS changed,
        -sum(more) FILTER (fate = 'site injury') AS site_injury,
        -sum(more) FILTER (fate = 'other injury') AS other_injury,
        -sum(more) FILTER (fate = 'left roster') AS left_roster,
        -sum(more) FILTER (fate = 'set aside') AS set_aside,
        -sum(more) FILTER (fate = 'no more') AS no_more
    FROM changes
    GROUP BY ALL
),
-- Between two changes nothing changes: the ticks after `after` up to `tick`. What ends, ends at it.
pieces AS (
    SELECT
        guarded, sport, sex, position_group, after,
        lead(after) OVER w AS tick,
        (sum(more) OVER w)::BIGINT AS at_risk,
        entered::BIGINT AS entered,
        coalesce(lead(injuries) OVER w, 0)::BIGINT AS injuries,
        coalesce(lead(changed) OVER w, 0)::BIGINT AS changed,
        coalesce(lead(site_injury) OVER w, 0)::BIGINT AS site_injury,
        coalesce(lead(other_injury) OVER w, 0)::BIGINT AS other_injury,
        coalesce(lead(left_roster) OVER w, 0)::BIGINT AS left_roster,
        coalesce(lead(set_aside) OVER w, 0)::BIGINT AS set_aside,
        coalesce(lead(no_more) OVER w, 0)::BIGINT AS no_more
    FROM summed
    WINDOW w AS (PARTITION BY guarded, sport, sex, position_group ORDER BY after)
)
SELECT
    guarded, sport, sex, position_group, u.tick,
    CASE WHEN u.tick = after + 1 THEN 1 ELSE u.tick - after - 1 END AS width,
    at_risk,
    injuries * (u.tick = p.tick)::BIGINT AS injuries,
    entered * (u.tick = after + 1)::BIGINT AS entered,
    changed * (u.tick = p.tick)::BIGINT AS changed,
    site_injury * (u.tick = p.tick)::BIGINT AS site_injury,
    other_injury * (u.tick = p.tick)::BIGINT AS other_injury,
    left_roster * (u.tick = p.tick)::BIGINT AS left_roster,
    set_aside * (u.tick = p.tick)::BIGINT AS set_aside,
    no_more * (u.tick = p.tick)::BIGINT AS no_more,
    0::BIGINT AS athletes,
    0::BIGINT AS sites,
    NULL::BIGINT AS horizon
FROM pieces AS p
CROSS JOIN unnest(list_distinct([after + 1, p.tick])) AS u(tick)
WHERE at_risk > 0
UNION ALL
SELECT
    guarded, NULL, NULL, NULL, NULL, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, count(*), sum(sites)::BIGINT,
    (SELECT quantile_disc(ticks, 0.8) FROM seasons)
FROM people
GROUP BY guarded
ORDER BY tick NULLS LAST, guarded, sport, sex, position_group NULLS LAST;
