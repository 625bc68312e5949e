-- How completely the wear of each session was recorded. `complete` and `not complete` were said;
-- `assumed`: nobody had yet said anything of the kind, in that team's season, by then.
-- From the first session on that is marked, or in which a guard is recorded as not worn, a session
-- without a mark is not complete. An earlier session never hangs on what was said later.
CREATE MACRO wear_of_sessions() AS TABLE
WITH begun AS (
    SELECT team, season, min(starts_at) AS begun_at
    FROM store.sessions
    WHERE wear_complete IS NOT NULL
       OR session_no IN (SELECT session_no FROM store.wear WHERE worn = 'no')
    GROUP BY team, season
)
SELECT
    s.session_no,
    CASE
        WHEN s.wear_complete = 'yes' THEN 'complete'
        WHEN coalesce(s.starts_at < b.begun_at, true) THEN 'assumed'
        ELSE 'not complete'
    END AS wear
FROM store.sessions AS s
LEFT JOIN begun AS b USING (team, season);

-- From when to when each guard was in its athlete's hands: from its first stage `fitted` (without
-- one, from the first session it was worn in) until it was retired, cancelled, or another guard
-- made in its place was fitted. `over_at` NULL: it still is.
CREATE MACRO guards_in_hand() AS TABLE
WITH stamps AS (
    SELECT
        guard_no,
        min(reached_at) FILTER (stage = 'fitted') AS fitted_at,
        min(reached_at) FILTER (stage IN ('retired', 'cancelled')) AS over_at
    FROM store.stages
    WHERE stage IN ('fitted', 'retired', 'cancelled')
    GROUP BY guard_no
),
first_worn AS (
    SELECT w.guard_no, min(s.starts_at) AS worn_at
    FROM worn_guards() AS w
    ANTI JOIN (FROM stamps WHERE fitted_at IS NOT NULL) AS k USING (guard_no)
    JOIN store.sessions AS s USING (session_no)
    GROUP BY w.guard_no
),
replaced AS (
    SELECT n.remake_of AS guard, n.athlete_no, min(k.fitted_at) AS replaced_at
    FROM store.guards AS n
    JOIN stamps AS k USING (guard_no)
    WHERE n.remake_of <> n.guard
    GROUP BY n.remake_of, n.athlete_no
)
SELECT
    g.guard_no, g.athlete_no, g.kind, g.side, g.purpose,
    coalesce(k.fitted_at, f.worn_at) AS in_hand_at,
    least(k.over_at, r.replaced_at) AS over_at
FROM store.guards AS g
LEFT JOIN stamps AS k USING (guard_no)
LEFT JOIN first_worn AS f USING (guard_no)
LEFT JOIN replaced AS r USING (guard, athlete_no)
WHERE coalesce(k.fitted_at, f.worn_at) IS NOT NULL;

-- Whether a guard in hand was worn in a session: by its record there, if it has one (its `worn`;
-- NULL: worn), else by how completely the session was recorded.
CREATE MACRO wear_state(has_record, worn, session_wear) AS CASE
    WHEN has_record AND worn = 'no' THEN 'not worn'
    WHEN has_record THEN 'worn'
    WHEN session_wear = 'not complete' THEN 'not known'
    ELSE 'not worn'
END;

-- Guards in hand of athletes who took part in a session, and nobody recorded whether they were worn.
CREATE MACRO wear_not_known() AS TABLE
SELECT a.session_no, h.guard_no, h.athlete_no, h.kind, h.side
FROM guards_in_hand() AS h
JOIN store.attendance AS a ON a.athlete_no = h.athlete_no AND a.part <> 'out'
JOIN store.sessions AS s
    ON s.session_no = a.session_no
    AND s.starts_at >= h.in_hand_at
    AND coalesce(s.starts_at < h.over_at, true)
JOIN wear_of_sessions() AS c ON c.session_no = s.session_no AND c.wear = 'not complete'
ANTI JOIN store.wear AS w ON w.session_no = a.session_no AND w.guard_no = h.guard_no;

-- Guards that were worn in a session (`is_worn`), or may have been (NULL).
CREATE MACRO maybe_worn() AS TABLE
SELECT session_no, guard_no, true AS is_worn FROM worn_guards()
UNION ALL
SELECT session_no, guard_no, NULL FROM wear_not_known();
