-- question: Which injuries are recorded in sessions of the scope, did each count for the guarded or
--   the bare, and what did it cost?
-- works on: scope
-- scope: groups
-- grain: one row per injury and site, in a session of the scope
-- columns:
--   athlete_no INTEGER   the athlete's number
--   is_guarded BOOLEAN   a guard was on at the site; NULL where that is not known
--   why VARCHAR          why it is not counted; NULL: it counts
--   days_lost BIGINT     full days lost; so far, where it is open
--   is_open BOOLEAN      no return known by then
--   onset VARCHAR        mode of onset; NULL where not recorded
--   mechanism VARCHAR    contact; NULL where not recorded
SELECT
    i.athlete_no,
    CASE
        WHEN i.is_exposed AND (i.other_kind OR i.wear IS DISTINCT FROM 'not known')
        THEN i.preventive OR i.for_return OR i.other_kind
    END AS is_guarded,
    CASE
        WHEN i.is_exposed THEN i.why
        ELSE 'the athlete is not recorded as taking part in that session'
    END AS why,
    days_lost(i.occurred_on, i.returned_on, $until) AS days_lost,
    i.is_open,
    r.onset::VARCHAR AS onset,
    r.mechanism::VARCHAR AS mechanism
FROM session_injuries($purpose, $outcome) AS i
JOIN store.injuries AS r USING (injury)
ORDER BY i.athlete_no, i.occurred_on, i.injury, i.side;
