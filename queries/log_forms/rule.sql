-- question: What did an athlete's department find its sport's rules to say of a guard in games?
-- params:
--   athlete VARCHAR  key
--   kind VARCHAR     guard kind
--   purpose VARCHAR  preventive or return
-- grain: one row per sport of the athlete's teams
-- columns:
--   sport VARCHAR     as in teams
--   rule VARCHAR      allowed, with covering, not allowed or not checked
--   source VARCHAR    where it was looked up; NULL: it was not
--   checked_on DATE   day it was; NULL: it was not
SELECT DISTINCT
    t.sport,
    coalesce(r.rule::VARCHAR, 'not checked') AS rule,
    r.source,
    r.checked_on
FROM store.roster AS p
JOIN store.athletes AS a USING (athlete_no)
JOIN store.teams AS t USING (team)
LEFT JOIN store.rules AS r
    ON r.department = t.department AND r.sport = t.sport AND r.kind = $kind
    AND r.purpose::VARCHAR = $purpose
WHERE a.athlete = $athlete
ORDER BY t.sport;
