-- question: Which letters stand for each key while the curtain is down?
-- params:
--   secret VARCHAR  what keys are hashed with; without it the letters tell nothing
-- grain: one row per athlete, guard, injury, offer or decision, and per name on a roster
-- columns:
--   kind VARCHAR     athlete, guard, injury, offer, decision or name
--   key VARCHAR      the key, or the name as in roster
--   letters VARCHAR  16 letters and figures, the same for the same secret, kind and key
-- A hash within a hash, each with the secret before it, as in RFC 2104: what is added to a key
-- cannot be carried on from another key's letters. Of 28 signs without vowels no word is made;
-- four hexadecimal digits choose one, so that none is more likely by more than 1 in 2000.
WITH keyed AS (
    SELECT 'athlete' AS kind, athlete AS key FROM store.athletes
    UNION ALL
    SELECT 'guard', guard FROM store.guards
    UNION ALL
    SELECT 'guard', remake_of FROM store.guards WHERE remake_of IS NOT NULL
    UNION ALL
    SELECT 'injury', injury FROM store.injuries
    UNION ALL
    SELECT 'offer', offer FROM store.offers
    UNION ALL
    SELECT 'decision', decision FROM store.decisions
    UNION ALL
    SELECT 'name', name FROM store.roster
),
hashed AS (
    SELECT DISTINCT
        kind, key, sha256($secret || sha256($secret || kind || chr(31) || key)) AS hash
    FROM keyed
)
SELECT
    kind, key,
    array_to_string(
        list_transform(
            range(16),
            lambda place: '23456789BCDFGHJKLMNPQRSTVWXZ'[
                ('0x' || hash[4 * place + 1:4 * place + 4])::INTEGER % 28 + 1
            ]
        ),
        ''
    ) AS letters
FROM hashed
ORDER BY kind, key;
