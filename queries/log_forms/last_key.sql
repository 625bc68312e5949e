-- question: How are the keys of a table numbered, and which number was given last?
-- params:
--   of_table VARCHAR  guards, sessions, injuries, offers, decisions, turns or releases
--   team VARCHAR      only of sessions: those of this team; NULL: of all
-- grain: one row per way of numbering; the most frequent first. Keys with a space are made of a
--   row's cells and carry no number
-- columns:
--   style VARCHAR   what stands before the number
--   width INTEGER   digits of the number given last, with its leading zeros
--   number BIGINT   the largest number given
--   keys BIGINT     how many keys are numbered so
WITH all_keys AS (
    SELECT guard AS key FROM store.guards WHERE $of_table = 'guards'
    UNION ALL
    SELECT session FROM store.sessions
    WHERE $of_table = 'sessions' AND ($team::VARCHAR IS NULL OR team = $team)
    UNION ALL
    SELECT injury FROM store.injuries WHERE $of_table = 'injuries'
    UNION ALL
    SELECT offer FROM store.offers WHERE $of_table = 'offers'
    UNION ALL
    SELECT decision FROM store.decisions WHERE $of_table = 'decisions'
    UNION ALL
    SELECT DISTINCT draw FROM store.turns WHERE $of_table = 'turns'
    UNION ALL
    SELECT release FROM store.releases WHERE $of_table = 'releases'
),
parted AS (
    SELECT
        regexp_replace(key, '[0-9]{1,15}$', '') AS style,
        regexp_extract(key, '[0-9]{1,15}$') AS digits
    FROM all_keys
    WHERE NOT contains(key, ' ') AND regexp_matches(key, '[0-9]$')
)
SELECT
    style,
    max_by(length(digits), digits::BIGINT)::INTEGER AS width,
    max(digits::BIGINT) AS number,
    count(*) AS keys
FROM parted
GROUP BY style
ORDER BY keys DESC, style;
