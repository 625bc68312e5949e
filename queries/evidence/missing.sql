-- question: Of the injuries in sessions of the scope, how many lack what, guarded and bare?
-- works on: scope
-- scope: groups
-- grain: one row per group (guarded, bare, neither)
-- columns:
--   belongs VARCHAR        guarded, bare, or in neither group
--   injuries BIGINT        injured sites in sessions, by the outcome asked for
--   onset BIGINT           of them without mode of onset
--   mechanism BIGINT       of them without contact
--   pathology BIGINT       of them without pathology
--   history BIGINT         of them without how they stand to an earlier injury
--   returned_on BIGINT     of them still open
--   was_on BIGINT          of them without whether a guard was on
SELECT
    CASE WHEN s.why IS NOT NULL OR NOT s.is_exposed THEN 'in neither group'
         WHEN s.guarded THEN 'guarded' ELSE 'bare' END AS belongs,
    count(*) AS injuries,
    count(*) FILTER (i.onset IS NULL) AS onset,
    count(*) FILTER (i.mechanism IS NULL) AS mechanism,
    count(*) FILTER (i.pathology IS NULL) AS pathology,
    count(*) FILTER (i.history IS NULL) AS history,
    count(*) FILTER (i.returned_on IS NULL) AS returned_on,
    count(*) FILTER (i.was_on IS NULL) AS was_on
FROM session_injuries($purpose, $outcome) AS s
JOIN store.injuries AS i USING (injury)
GROUP BY belongs
ORDER BY belongs;
