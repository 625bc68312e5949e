-- question: How often were bare sites injured, by department, sport, sex, setting and area?
-- works on: scope
-- scope: groups
-- grain: one row per department, sport, sex, setting and body area with a bare site-exposure
-- columns:
--   department VARCHAR key
--   sport VARCHAR      as in teams
--   sex VARCHAR        women, men, mixed
--   setting VARCHAR    game or practice
--   area VARCHAR       body area
--   sites BIGINT       sites of that area in the scope, 1 or 2
--   injuries BIGINT    bare site-exposures with an injury
--   exposures BIGINT   bare site-exposures
WITH areas_studied AS (
    SELECT area, count(*) AS sites FROM scoped_sites GROUP BY area
)
SELECT
    s.department, s.sport, s.sex, s.setting, c.area,
    any_value(x.sites) AS sites,
    sum(c.b)::BIGINT AS injuries,
    sum(c.t0)::BIGINT AS exposures
FROM exposure_cells($purpose) AS c
JOIN areas_studied AS x USING (area)
JOIN scoped_sessions AS s USING (session_no)
GROUP BY s.department, s.sport, s.sex, s.setting, c.area
HAVING sum(c.t0) > 0
ORDER BY s.department, s.sport, s.sex, s.setting, c.area;
