-- question: Which departments, teams, athletes, guards and sessions hold all of some words?
-- works on: find
-- params:
--   until DATE       first day not yet known (the day after "through")
--   words VARCHAR[]  what is looked for, in any order, capitals and accents
--   most INTEGER     rows at most
-- grain: one row per thing found: those first that are called so, then those whose name has a word
--   that begins so
-- columns:
--   what VARCHAR      department, team, athlete, guard, session or made of
--   key VARCHAR       key
--   name VARCHAR      as recorded: a name, a guard's kind and side, a session's setting and label
--   beside VARCHAR    what tells it from others of that name
--   athlete VARCHAR   key of the athlete it belongs to; NULL: to none
--   matching BIGINT   how many there are in all
WITH asked AS (
    SELECT [folded(word) for word IN $words] AS words
),
found AS (
    SELECT t.*, a.words[1] AS first_word
    FROM things AS t
    CROSS JOIN asked AS a
    WHERE list_bool_and([contains(t.line, word) for word IN a.words])
)
SELECT what, key, name, beside, athlete, count(*) OVER () AS matching
FROM found
ORDER BY
    folded(key) <> first_word,
    NOT contains(' ' || plain_name, ' ' || first_word),
    NOT starts_with(folded(key), first_word),
    place, name, beside, key
LIMIT $most;
