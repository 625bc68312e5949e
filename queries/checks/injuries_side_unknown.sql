-- question: Which injuries have no side although their body area has two?
-- touches: compare (injuries counted), games (injuries counted)
-- why: An injury without a side is to no site: it counts in tallies and availability, and in no
--   comparison of guarded and bare sites.
-- mend: Ask the athlete or whoever reported it, and complete the side.
-- works on: checks
-- scope: checks
-- grain: one row per injury
-- columns: doubts
SELECT
    department, team, athlete, name, occurred_on AS dated_on, 'injuries' AS table_name,
    injury AS key,
    area || ': side not known' AS detail
FROM checked_injuries
WHERE side IS NULL
  AND area NOT IN ('region unspecified', 'multiple')
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
