-- question: Which injuries to the sites studied were recorded, and is each one counted?
-- works on: scope
-- scope: groups
-- grain: one row per injury and site in a session of the scope; counted ones first
-- columns:
--   injury VARCHAR      key
--   occurred_on DATE    day of onset
--   athlete VARCHAR     key
--   name VARCHAR        as in roster; the key where not on that roster
--   area VARCHAR        body area
--   side VARCHAR        left, right, midline
--   session VARCHAR     key
--   worn VARCHAR        guarded or bare at the site; NULL where not recorded as taking part
--   days_lost VARCHAR   full days lost; with a + while the injury is open
--   counted VARCHAR     yes, or why not
WITH marked AS (SELECT * FROM marked_sites($purpose)),
listed AS (
    SELECT
        i.injury, i.occurred_on, a.athlete,
        coalesce(r.name, a.athlete) AS name,
        i.area, i.side, s.session,
        CASE WHEN m.guarded THEN 'guarded' WHEN NOT m.guarded THEN 'bare' END AS worn,
        concat(
            days_lost(i.occurred_on, i.returned_on, $until), CASE WHEN i.is_open THEN '+' END
        ) AS days_lost,
        CASE
            WHEN m.session_no IS NULL THEN 'no: not recorded as taking part'
            WHEN m.set_aside IS NOT NULL THEN 'no: ' || m.set_aside
            WHEN $outcome <> 'any' AND NOT i.time_loss THEN 'no: no day lost'
            WHEN row_number() OVER (
                PARTITION BY i.session_no, i.athlete_no, i.area, i.side
                ORDER BY i.time_loss DESC, i.injury
            ) > 1
            THEN 'no: a second record of the same site in the same session'
            ELSE 'yes'
        END AS counted
    FROM scoped_injuries AS i
    JOIN scoped_sessions AS s USING (session_no)
    JOIN store.athletes AS a ON a.athlete_no = i.athlete_no
    LEFT JOIN store.roster AS r
        ON r.athlete_no = i.athlete_no AND r.team = s.team AND r.season = s.season
    LEFT JOIN marked AS m
        ON m.session_no = i.session_no AND m.athlete_no = i.athlete_no
        AND m.area = i.area AND m.side = i.side
    WHERE is_asked($position_groups, r.position_group)
)
SELECT
    injury, occurred_on, athlete, name, area, side, session, worn, days_lost, counted
FROM listed
ORDER BY counted <> 'yes', counted, occurred_on DESC, injury, side;
