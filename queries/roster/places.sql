-- question: Who is on the roster, and in what state was each last recorded?
-- scope: guards
-- grain: one row per athlete, team and season on the roster, those who left or join later too
-- columns:
--   athlete VARCHAR         key
--   name VARCHAR            as in roster
--   team VARCHAR            key
--   season VARCHAR          as in roster
--   jersey VARCHAR          NULL: not given
--   position VARCHAR        NULL: not given
--   position_group VARCHAR  NULL: not given
--   joined_on DATE          NULL: from the start
--   left_on DATE            last day, once known; NULL: still there
--   here VARCHAR            yes, not yet or left
--   status VARCHAR          full, limited, out or not recorded, for the next session
--   because VARCHAR         injury, returned, full part despite an open injury, or what is recorded
--   last_part VARCHAR       part in the last session recorded for the athlete; NULL: none
--   last_reason VARCHAR     reason recorded with it; NULL: none
--   last_on DATE            day of that session
--   sessions_since BIGINT   sessions of the team since then; all so far where none is recorded
--   open_injury VARCHAR     open injury with the earliest onset; NULL: none is open (so too below)
--   open_area VARCHAR       its body area
--   open_side VARCHAR       its side
--   open_on DATE            its day of onset
--   open_injuries BIGINT    open injuries in all
--   returned_on DATE        latest known return from an injury; NULL: none
--   returned_area VARCHAR   body area of that injury
--   parts VARCHAR[]         the team's last 12 sessions, oldest first; NULL: before joining
--   guarded BOOLEAN[]       was a guard of the scope worn in it? NULL: it is not known
WITH places AS (
    SELECT *
    FROM asked_places($seasons, $departments, $teams, $sports, $sexes, $position_groups)
),
sessions AS (
    SELECT
        session_no, team, season, played_on,
        row_number() OVER (
            PARTITION BY team, season ORDER BY starts_at DESC, session_no DESC
        ) AS back
    FROM store.sessions
    SEMI JOIN places USING (team, season)
    WHERE played_on < $until
),
recorded AS (
    SELECT p.athlete_no, s.session_no, p.team, p.season, s.back, s.played_on, a.part, a.reason
    FROM places AS p
    JOIN sessions AS s USING (team, season)
    JOIN store.attendance AS a ON a.session_no = s.session_no AND a.athlete_no = p.athlete_no
),
lately AS (
    SELECT
        athlete_no, team, season,
        arg_min(part, back) AS part,
        arg_min(coalesce(reason::VARCHAR, ''), back) AS reason,
        arg_min(played_on, back) AS played_on,
        min(back) - 1 AS sessions_since
    FROM recorded
    GROUP BY athlete_no, team, season
),
worn AS (
    SELECT DISTINCT w.session_no, g.athlete_no
    FROM worn_guards() AS w
    JOIN sessions AS s USING (session_no)
    JOIN store.guards AS g USING (guard_no)
    WHERE s.back <= 12
      AND g.kind IN (FROM asked_kinds($kinds, $areas))
      AND is_asked_side($sides, g.side)
      AND is_made_of($made_of, g.guard_no)
),
unknown AS (
    SELECT DISTINCT session_no, athlete_no
    FROM wear_not_known()
    WHERE kind IN (FROM asked_kinds($kinds, $areas)) AND is_asked_side($sides, side)
      AND is_made_of($made_of, guard_no)
),
strips AS (
    SELECT
        p.athlete_no, p.team, p.season,
        list(
            CASE
                WHEN p.joined_on > s.played_on AND a.part IS NULL THEN NULL
                ELSE coalesce(a.part::VARCHAR, 'not recorded')
            END
            ORDER BY s.back DESC
        ) AS parts,
        list(
            CASE WHEN w.session_no IS NOT NULL THEN true WHEN u.session_no IS NULL THEN false END
            ORDER BY s.back DESC
        ) AS guarded,
        max(held) AS held
    FROM places AS p
    JOIN sessions AS s ON s.team = p.team AND s.season = p.season AND s.back <= 12
    JOIN (SELECT team, season, max(back) AS held FROM sessions GROUP BY team, season) AS h
        ON h.team = p.team AND h.season = p.season
    LEFT JOIN recorded AS a ON a.session_no = s.session_no AND a.athlete_no = p.athlete_no
    LEFT JOIN worn AS w ON w.session_no = s.session_no AND w.athlete_no = p.athlete_no
    LEFT JOIN unknown AS u ON u.session_no = s.session_no AND u.athlete_no = p.athlete_no
    GROUP BY p.athlete_no, p.team, p.season
),
injuries AS (
    SELECT *, coalesce(returned_on >= $until, true) AS is_open
    FROM store.injuries
    SEMI JOIN places USING (athlete_no)
    WHERE coalesce(reported_on, occurred_on) < $until AND occurred_on < $until
),
open_injuries AS (
    SELECT
        athlete_no,
        min_by(injury, (occurred_on, injury)) AS injury,
        min_by(area, (occurred_on, injury)) AS area,
        min_by(side, (occurred_on, injury)) AS side,
        min(occurred_on) AS first_on,
        max(occurred_on) AS last_on,
        count(*) AS injuries
    FROM injuries
    WHERE is_open
    GROUP BY athlete_no
),
returns AS (
    SELECT
        athlete_no,
        max(returned_on) AS returned_on,
        max_by(area, (returned_on, injury)) AS area
    FROM injuries
    WHERE NOT is_open
    GROUP BY athlete_no
),
facts AS (
    SELECT
        p.*,
        CASE
            WHEN p.joined_on >= $until THEN 'not yet' WHEN p.left_on < $until THEN 'left' ELSE 'yes'
        END AS here,
        l.part::VARCHAR AS last_part,
        nullif(l.reason, '') AS last_reason,
        l.played_on AS last_on,
        coalesce(l.sessions_since, s.held, 0) AS sessions_since,
        o.injury AS open_injury,
        o.area::VARCHAR AS open_area,
        o.side::VARCHAR AS open_side,
        o.first_on AS open_on,
        coalesce(o.injuries, 0) AS open_injuries,
        l.part <> 'out' AND l.played_on > o.last_on AS is_back_in_part,
        b.returned_on,
        b.area::VARCHAR AS returned_area,
        b.returned_on IS NOT NULL
            AND coalesce(b.returned_on > l.played_on, true)
            AND (l.part IS NULL OR l.part = 'full' OR l.reason IN ('', 'injury'))
            AS is_returned,
        coalesce(s.parts, []) AS parts,
        coalesce(s.guarded, []) AS guarded
    FROM places AS p
    LEFT JOIN lately AS l USING (athlete_no, team, season)
    LEFT JOIN strips AS s USING (athlete_no, team, season)
    LEFT JOIN open_injuries AS o USING (athlete_no)
    LEFT JOIN returns AS b USING (athlete_no)
)
SELECT
    a.athlete, f.name, f.team, f.season, f.jersey, f.position, f.position_group, f.joined_on,
    CASE WHEN f.left_on < $until THEN f.left_on END AS left_on,
    f.here,
    CASE
        WHEN f.open_injury IS NOT NULL AND f.is_back_in_part THEN 'limited'
        WHEN f.open_injury IS NOT NULL THEN 'out'
        WHEN f.is_returned THEN 'full'
        ELSE coalesce(f.last_part, 'not recorded')
    END AS status,
    CASE
        WHEN f.open_injury IS NOT NULL AND f.is_back_in_part AND f.last_part = 'full'
        THEN 'full part despite an open injury'
        WHEN f.open_injury IS NOT NULL THEN 'injury'
        WHEN f.is_returned THEN 'returned'
        WHEN f.last_part <> 'full' THEN coalesce(f.last_reason, 'no reason recorded')
    END AS because,
    f.last_part, f.last_reason, f.last_on, f.sessions_since, f.open_injury, f.open_area,
    f.open_side, f.open_on, f.open_injuries, f.returned_on, f.returned_area, f.parts, f.guarded
FROM facts AS f
JOIN store.athletes AS a USING (athlete_no)
ORDER BY a.athlete, f.team, f.season;
