-- The guards of the view `incoming` with their numbers. New guards are numbered from the largest
-- number on, by athlete and key. Their athletes have numbers.
SELECT
    incoming.*,
    coalesce(
        held.guard_no,
        (SELECT coalesce(max(guards.guard_no), 0) FROM store.guards AS guards)
        + row_number() OVER (
            PARTITION BY held.guard_no IS NULL
            ORDER BY athletes.athlete_no, incoming.guard
        )
    ) AS guard_no
FROM incoming
JOIN store.athletes AS athletes ON athletes.athlete = incoming.athlete
LEFT JOIN store.guards AS held ON held.guard = incoming.guard
