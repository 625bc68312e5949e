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
--   worn VARCHAR        guarded or bare at the site, or not known; NULL where not recorded as
--                       taking part
--   days_lost VARCHAR   full days lost; with a + while the injury is open
--   counted VARCHAR     yes, or why not
SELECT
    i.injury, i.occurred_on, a.athlete,
    coalesce(i.name, a.athlete) AS name,
    i.area, i.side, i.session,
    CASE
        WHEN i.guarded THEN 'guarded' WHEN NOT i.guarded THEN 'bare'
        WHEN i.is_exposed THEN 'not known'
    END AS worn,
    concat(
        days_lost(i.occurred_on, i.returned_on, $until), CASE WHEN i.is_open THEN '+' END
    ) AS days_lost,
    CASE
        WHEN NOT i.is_exposed THEN 'no: not recorded as taking part'
        ELSE coalesce('no: ' || i.why, 'yes')
    END AS counted
FROM session_injuries($purpose, $outcome) AS i
JOIN store.athletes AS a USING (athlete_no)
ORDER BY counted <> 'yes', counted, i.occurred_on DESC, i.injury, i.side;
