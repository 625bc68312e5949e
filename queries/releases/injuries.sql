-- question: How many injuries and exposures has each department, by sport and sex?
-- works on: scope
-- scope: groups
-- grain: one row per department, sport and sex with a site-exposure
-- columns:
--   department VARCHAR  key
--   sport VARCHAR       as in teams
--   sex VARCHAR         women, men, mixed
--   guarded BIGINT      guarded site-exposures with an injury
--   bare BIGINT         bare site-exposures with an injury
--   guarded_exposures BIGINT  guarded site-exposures
--   bare_exposures BIGINT     bare site-exposures
SELECT
    s.department, s.sport, s.sex,
    sum(c.a)::BIGINT AS guarded,
    sum(c.b)::BIGINT AS bare,
    sum(c.t1)::BIGINT AS guarded_exposures,
    sum(c.t0)::BIGINT AS bare_exposures
FROM exposure_cells($purpose) AS c
JOIN scoped_sessions AS s USING (session_no)
GROUP BY s.department, s.sport, s.sex
ORDER BY s.department, s.sport, s.sex;
