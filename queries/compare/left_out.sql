-- question: Which injuries and site-exposures are not in the comparison, and why?
-- works on: scope
-- scope: groups
-- grain: one row per reason; an injury has exactly one reason, or is counted
-- columns:
--   what VARCHAR   injuries, site-exposures, athletes' sessions, guards worn
--   why VARCHAR    the reason in words
--   number BIGINT  how many
WITH marked AS (SELECT * FROM marked_sites($purpose)),
season_spans AS (
    SELECT team, season, min(played_on) AS first_day, max(played_on) AS last_day
    FROM season_sessions
    GROUP BY team, season
),
without_session AS (
    SELECT DISTINCT i.injury
    FROM scoped_injuries AS i
    JOIN store.roster AS r USING (athlete_no)
    JOIN season_spans AS p
        ON p.team = r.team AND p.season = r.season
        AND i.occurred_on BETWEEN p.first_day AND p.last_day
    WHERE i.session_no IS NULL
      AND is_asked($position_groups, r.position_group)
),
in_session AS (
    SELECT
        CASE
            WHEN is_exposed THEN why
            ELSE 'the athlete is not recorded as taking part in that session'
        END AS why
    FROM session_injuries($purpose, $outcome)
),
worn_without_taking_part AS (
    SELECT DISTINCT w.session_no, w.guard_no
    FROM worn_guards() AS w
    JOIN site_guards AS g USING (guard_no)
    JOIN scoped_sessions AS s USING (session_no)
    LEFT JOIN store.roster AS r
        ON r.athlete_no = g.athlete_no AND r.team = s.team AND r.season = s.season
    LEFT JOIN store.attendance AS a
        ON a.session_no = w.session_no AND a.athlete_no = g.athlete_no
    WHERE (a.part IS NULL OR a.part = 'out')
      AND is_asked($position_groups, r.position_group)
),
listed AS (
    SELECT 'injuries' AS what, 'no session recorded' AS why, count(*) AS number
    FROM without_session
    UNION ALL
    SELECT 'injuries', why, count(*) FROM in_session WHERE why IS NOT NULL GROUP BY why
    UNION ALL
    SELECT 'site-exposures', set_aside, count(*)
    FROM marked
    WHERE set_aside IS NOT NULL
    GROUP BY set_aside
    UNION ALL
    SELECT
        'site-exposures', 'no earlier injury to the site',
        (SELECT count(*) FROM scoped_exposures)
        * (SELECT count(*) FROM scoped_sites)
        - (SELECT count(*) FROM marked)
    WHERE $purpose = 'return'
    UNION ALL
    SELECT 'athletes'' sessions', 'attendance not recorded', count(*)
    FROM listed_athletes
    WHERE NOT is_recorded AND is_asked($settings, setting)
    UNION ALL
    SELECT
        'guards worn', 'the athlete is not recorded as taking part in that session', count(*)
    FROM worn_without_taking_part
)
SELECT what, why, sum(number)::BIGINT AS number
FROM listed
GROUP BY what, why
HAVING sum(number) > 0
ORDER BY what, number DESC, why;
