-- question: Of owners of a guard who were hurt at a site it covers, of whom is it not known whether it
--   was on, and of how many fellow owners in the same session?
-- works on: scope
-- scope: groups
-- grain: one row per athlete and session in which a site of the view was hurt that a guard in hand
--   covers
-- columns:
--   athlete VARCHAR           the athlete's key
--   session VARCHAR           the session's key
--   is_assumed BOOLEAN        that wear is recorded completely in it is only assumed
--   not_known BOOLEAN         nobody recorded whether the guard was on at the site
--   fellows BIGINT            other athletes in the session with a guard in hand
--   fellows_not_known BIGINT  of them, those of whom nobody recorded whether it was worn
WITH owners AS (
    SELECT
        session_no, athlete_no,
        bool_or(wear = 'not known') AS not_known,
        bool_or(wear = 'not known')
            FILTER (injured AND ($purpose = 'all' OR is_new = ($purpose <> 'return')))
            AS hurt_not_known
    FROM owned_sites()
    GROUP BY session_no, athlete_no
),
hurt AS (
    SELECT session_no, athlete_no, hurt_not_known AS not_known
    FROM owners
    WHERE hurt_not_known IS NOT NULL
)
SELECT
    a.athlete, s.session,
    s.wear = 'assumed' AS is_assumed,
    h.not_known,
    count(o.athlete_no) AS fellows,
    count(*) FILTER (o.not_known) AS fellows_not_known
FROM hurt AS h
JOIN scoped_sessions AS s USING (session_no)
JOIN store.athletes AS a USING (athlete_no)
LEFT JOIN owners AS o ON o.session_no = h.session_no AND o.athlete_no <> h.athlete_no
GROUP BY a.athlete, s.session, s.wear, h.not_known
ORDER BY s.session, a.athlete;
