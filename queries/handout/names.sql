-- question: Which words of the store may stand in no document for outsiders?
-- grain: one row per kind and word
-- columns:
--   kind VARCHAR  name (of an athlete), key, jersey, client (name of a department)
--   word VARCHAR  as recorded
-- Keys are those of athletes, guards, injuries, sessions, teams and departments.
WITH named AS (
    SELECT 'name' AS kind, name AS word FROM store.roster
    UNION ALL
    SELECT 'jersey', jersey FROM store.roster
    UNION ALL
    SELECT 'key', athlete FROM store.athletes
    UNION ALL
    SELECT 'key', guard FROM store.guards
    UNION ALL
    SELECT 'key', injury FROM store.injuries
    UNION ALL
    SELECT 'key', session FROM store.sessions
    UNION ALL
    SELECT 'key', team FROM store.teams
    UNION ALL
    SELECT 'key', department FROM store.departments
    UNION ALL
    SELECT 'client', name FROM store.departments
)
SELECT DISTINCT kind AS kind, word AS word
FROM named
WHERE word IS NOT NULL
ORDER BY kind, word;
