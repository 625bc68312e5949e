-- question: Which athletes of one department look like one person under two keys?
-- touches: compare (same athlete), games (games before an injury), take-up (athletes)
-- why: One person under two keys begins anew with the second: earlier injuries and games
--   are forgotten, and the limits by athlete take one for two.
-- mend: Where they are one, load the rows of one under the key of the other; siblings may
--   stay.
-- works on: checks
-- scope: checks
-- grain: one row per pair of athletes; the later key
-- columns: doubts
-- Names are compared without accents, capitals and the order of their words: the same within a
-- department, one letter apart within a team. Short names, and names with figures or initials,
-- are compared whole only.
WITH people AS MATERIALIZED (
    SELECT DISTINCT
        department, team, athlete, name,
        array_to_string(
            list_sort(regexp_extract_all(strip_accents(lower(name)), '[\p{L}\p{N}]+')), ' '
        ) AS folded,
        folded[:3] AS head,
        folded[-3:] AS tail,
        length(folded) >= 8 AND NOT regexp_matches(folded, '[0-9]|(^| )[^ ]( |$)') AS is_long
    FROM checked_places
),
alike AS (
    SELECT a.athlete, b.athlete AS other
    FROM people AS a
    JOIN people AS b
        ON b.department = a.department AND b.folded = a.folded AND b.athlete < a.athlete
    WHERE a.folded <> ''
    UNION
    SELECT a.athlete, b.athlete
    FROM people AS a
    JOIN people AS b ON b.team = a.team AND b.athlete < a.athlete
    WHERE a.is_long AND b.is_long
      AND abs(length(a.folded) - length(b.folded)) <= 1
      AND (a.head = b.head OR a.tail = b.tail)
      AND damerau_levenshtein(a.folded, b.folded) = 1
),
named AS (
    SELECT athlete, min(department) AS department, min(team) AS team, min(name) AS name
    FROM people
    GROUP BY athlete
)
SELECT
    n.department, n.team, n.athlete, n.name, NULL::DATE AS dated_on, 'roster' AS table_name,
    n.athlete AS key,
    'nearly the name of ' || o.athlete || ', ' || o.name AS detail
FROM alike AS a
JOIN named AS n USING (athlete)
JOIN named AS o ON o.athlete = a.other
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
