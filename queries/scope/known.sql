-- question: Which values does the store know for each part of the scope?
-- params:
-- grain: one row per part of the scope and value
-- columns:
--   part VARCHAR    season, department, team, sport, sex, position group, kind, area, made of;
--                   covers: value is a kind, name an area it covers
--   value VARCHAR   as it is written in a scope
--   name VARCHAR    how it is shown; NULL: as the value
--   department VARCHAR  a team's; NULL of every other part
--   weight BIGINT   what it is ordered by, larger first: latest day, or wear recorded
SELECT 'season' AS part, season AS value, NULL AS name, NULL AS department,
       epoch(max(starts_at))::BIGINT AS weight
FROM store.sessions
GROUP BY season
UNION ALL
SELECT 'department', department, name, NULL, 0 FROM store.departments
UNION ALL
SELECT 'team', team,
       (CASE sex WHEN 'women' THEN 'women''s ' WHEN 'men' THEN 'men''s ' ELSE 'mixed ' END)
           || sport || ' at ' || d.name,
       department, 0
FROM store.teams
JOIN store.departments AS d USING (department)
UNION ALL
SELECT DISTINCT 'sport', sport, NULL, NULL, 0 FROM store.teams
UNION ALL
SELECT DISTINCT 'sex', sex::VARCHAR, NULL, NULL, 0 FROM store.teams
UNION ALL
SELECT DISTINCT 'position group', position_group, NULL, NULL, 0
FROM store.roster
WHERE position_group IS NOT NULL
UNION ALL
SELECT 'kind', k.kind, NULL, NULL,
       (SELECT count(*) FROM store.guards AS g WHERE g.kind = k.kind)
           + (SELECT count(*) FROM store.turns AS t WHERE t.kind = k.kind)
FROM (SELECT DISTINCT kind FROM store.kinds) AS k
UNION ALL
SELECT DISTINCT 'area', area::VARCHAR, NULL, NULL, 0 FROM store.kinds
UNION ALL
SELECT DISTINCT 'made of', made_of, NULL, NULL, 0 FROM guard_build()
UNION ALL
SELECT 'covers', kind, area::VARCHAR, NULL, 0 FROM store.kinds
ORDER BY part, weight DESC, value, name;
