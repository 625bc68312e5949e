-- question: How many of the rostered athletes could take part in each session, and who was hurt?
-- scope: athletes
-- grain: one row per session of the scope that was held
-- columns:
--   session VARCHAR            key
--   team VARCHAR               key
--   season VARCHAR             as in sessions
--   starts_at TIMESTAMPTZ      its start
--   played_on DATE             day in the department's time zone
--   setting VARCHAR            game or practice
--   season_part VARCHAR        preseason, regular, postseason; NULL: not recorded
--   label VARCHAR              NULL: none
--   rostered BIGINT            athletes on the roster that day
--   full_part BIGINT           of them, took part in full (so too below)
--   limited_health BIGINT      limited through injury or illness
--   limited_other BIGINT       limited for another reason
--   limited_unknown BIGINT     limited, no reason recorded
--   out_injury BIGINT          out through injury
--   out_illness BIGINT         out through illness
--   out_other BIGINT           out for another reason
--   out_unknown BIGINT         out, no reason recorded
--   not_recorded BIGINT        attendance not recorded
--   unlisted BIGINT            attendances of athletes not on the roster that day
--   exposures BIGINT           athletes who took part, in full or limited, listed or not
--   injuries BIGINT            injuries in this session of an athlete who took part
--   injuries_time_loss BIGINT  of them, with a day lost or still open
--   injuries_unmatched BIGINT  injuries in it of athletes not recorded as taking part
WITH sessions AS (
    SELECT s.*
    FROM scope_sessions($seasons, $until, $departments, $teams, $sports, $sexes, NULL) AS s
),
attended AS (
    SELECT
        s.session_no, a.athlete_no, a.part, a.reason, r.position_group,
        r.athlete_no IS NOT NULL
            AND is_listed(r.joined_on, r.left_on, s.played_on) AS is_listed
    FROM sessions AS s
    JOIN store.attendance AS a USING (session_no)
    LEFT JOIN store.roster AS r
        ON r.athlete_no = a.athlete_no AND r.team = s.team AND r.season = s.season
    WHERE is_asked($position_groups, r.position_group)
),
parts AS (
    SELECT
        session_no,
        count(*) FILTER (is_listed) AS listed,
        count(*) FILTER (is_listed AND part = 'full') AS full_part,
        count(*) FILTER (is_listed AND part = 'limited' AND reason IN ('injury', 'illness'))
            AS limited_health,
        count(*) FILTER (is_listed AND part = 'limited' AND reason NOT IN ('injury', 'illness'))
            AS limited_other,
        count(*) FILTER (is_listed AND part = 'limited' AND reason IS NULL) AS limited_unknown,
        count(*) FILTER (is_listed AND part = 'out' AND reason = 'injury') AS out_injury,
        count(*) FILTER (is_listed AND part = 'out' AND reason = 'illness') AS out_illness,
        count(*) FILTER (is_listed AND part = 'out' AND reason NOT IN ('injury', 'illness'))
            AS out_other,
        count(*) FILTER (is_listed AND part = 'out' AND reason IS NULL) AS out_unknown,
        count(*) FILTER (NOT is_listed) AS unlisted,
        count(*) FILTER (part <> 'out') AS exposures
    FROM attended
    GROUP BY session_no
),
rostered AS (
    SELECT s.session_no, count(*) AS athletes
    FROM sessions AS s
    JOIN store.roster AS r USING (team, season)
    WHERE is_listed(r.joined_on, r.left_on, s.played_on)
      AND is_asked($position_groups, r.position_group)
    GROUP BY s.session_no
),
hurt AS (
    SELECT
        i.session_no,
        count(*) FILTER (a.part <> 'out') AS injuries,
        count(*) FILTER (
            a.part <> 'out'
            AND coalesce(i.returned_on >= $until OR i.returned_on - i.occurred_on > 1, true)
        ) AS time_loss,
        count(*) FILTER (coalesce(a.part = 'out', true)) AS unmatched
    FROM store.injuries AS i
    JOIN sessions AS s USING (session_no)
    LEFT JOIN store.attendance AS a
        ON a.session_no = i.session_no AND a.athlete_no = i.athlete_no
    LEFT JOIN store.roster AS r
        ON r.athlete_no = i.athlete_no AND r.team = s.team AND r.season = s.season
    WHERE coalesce(i.reported_on, i.occurred_on) < $until
      AND is_asked($position_groups, r.position_group)
    GROUP BY i.session_no
)
SELECT
    s.session, s.team, s.season, s.starts_at, s.played_on, s.setting,
    q.season_part::VARCHAR AS season_part,
    q.label,
    coalesce(r.athletes, 0) AS rostered,
    coalesce(p.full_part, 0) AS full_part,
    coalesce(p.limited_health, 0) AS limited_health,
    coalesce(p.limited_other, 0) AS limited_other,
    coalesce(p.limited_unknown, 0) AS limited_unknown,
    coalesce(p.out_injury, 0) AS out_injury,
    coalesce(p.out_illness, 0) AS out_illness,
    coalesce(p.out_other, 0) AS out_other,
    coalesce(p.out_unknown, 0) AS out_unknown,
    coalesce(r.athletes, 0) - coalesce(p.listed, 0) AS not_recorded,
    coalesce(p.unlisted, 0) AS unlisted,
    coalesce(p.exposures, 0) AS exposures,
    coalesce(h.injuries, 0) AS injuries,
    coalesce(h.time_loss, 0) AS injuries_time_loss,
    coalesce(h.unmatched, 0) AS injuries_unmatched
FROM sessions AS s
JOIN store.sessions AS q USING (session_no)
LEFT JOIN rostered AS r USING (session_no)
LEFT JOIN parts AS p USING (session_no)
LEFT JOIN hurt AS h USING (session_no)
ORDER BY s.starts_at, s.session;
