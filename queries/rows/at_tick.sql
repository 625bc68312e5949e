-- question: Who was at risk at one tick of the clock?
-- works on: scope
-- scope: groups, clock
-- params:
--   tick BIGINT                the tick
-- grain: one row per followed site that took part in the tick; those injured at it first
-- columns:
--   athlete VARCHAR    key
--   name VARCHAR       as in roster; the key where not on that roster
--   team VARCHAR       key
--   season VARCHAR     as in sessions
--   area VARCHAR       body area
--   side VARCHAR       left, right, midline
--   session VARCHAR    key
--   played_on DATE     day in the department's time zone
--   worn VARCHAR       guarded or bare at the site
--   injured VARCHAR    yes or no
SELECT
    a.athlete,
    coalesce(r.name, a.athlete) AS name,
    f.team, f.season, f.area, f.side, f.session, f.played_on,
    CASE WHEN f.guarded THEN 'guarded' ELSE 'bare' END AS worn,
    CASE WHEN f.injured AND f.tick = $tick THEN 'yes' ELSE 'no' END AS injured
FROM followed_sites($purpose, false) AS f
JOIN store.athletes AS a USING (athlete_no)
LEFT JOIN store.roster AS r USING (athlete_no, team, season)
WHERE f.is_followed AND $tick > f.entry AND $tick <= f.tick
ORDER BY 10 DESC, f.guarded DESC, a.athlete, f.team, f.season, f.area, f.side;
