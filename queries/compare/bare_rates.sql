-- question: How often were bare sites of each kind of athlete and stretch of the season injured,
--   all injuries counted, not only first ones?
-- works on: scope
-- scope: sites
-- grain: one row per body area, sport, position group, setting and two-week block
-- columns:
--   area VARCHAR            body area
--   sport VARCHAR           as in teams
--   position_group VARCHAR  as in roster; NULL where not recorded
--   setting VARCHAR         game or practice
--   block BIGINT            two-week block
--   injuries BIGINT         bare site-exposures with an injury
--   exposures BIGINT        bare site-exposures
SELECT
    c.area, s.sport, c.position_group, s.setting, s.block,
    sum(c.b)::BIGINT AS injuries,
    sum(c.t0)::BIGINT AS exposures
FROM exposure_cells('through') AS c
JOIN scoped_sessions AS s USING (session_no)
GROUP BY c.area, s.sport, c.position_group, s.setting, s.block
HAVING sum(c.t0) > 0
ORDER BY c.area, s.sport, c.position_group NULLS LAST, s.setting, s.block;
