-- Numbers the athletes of the view `incoming` (roster rows) that have no number yet, from the
-- largest number on, in the order of their keys.
INSERT INTO store.athletes (athlete_no, athlete)
WITH fresh AS (
    SELECT DISTINCT incoming.athlete
    FROM incoming
    WHERE incoming.athlete NOT IN (SELECT athletes.athlete FROM store.athletes AS athletes)
)

SELECT
    (SELECT coalesce(max(athletes.athlete_no), 0) FROM store.athletes AS athletes)
        + row_number() OVER (ORDER BY fresh.athlete) AS athlete_no,
    fresh.athlete
FROM fresh
ORDER BY athlete_no
