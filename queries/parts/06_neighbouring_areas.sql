-- The body areas that adjoin one another, each pair both ways, by plain anatomy: what is worn on one
-- may touch, bear on or be held by the other. Names of areas as in the IOC consensus statement 2020;
-- `region unspecified` and `multiple` are nowhere and adjoin nothing.
CREATE MACRO neighbouring_areas() AS TABLE
SELECT unnest([area, neighbour]) AS area, unnest([neighbour, area]) AS neighbour
FROM (VALUES
    ('head', 'neck'), ('neck', 'shoulder'), ('neck', 'chest'), ('neck', 'thoracic spine'),
    ('shoulder', 'upper arm'), ('shoulder', 'chest'), ('shoulder', 'thoracic spine'),
    ('upper arm', 'elbow'), ('elbow', 'forearm'), ('forearm', 'wrist'), ('wrist', 'hand'),
    ('chest', 'thoracic spine'), ('chest', 'abdomen'), ('thoracic spine', 'lumbosacral'),
    ('lumbosacral', 'abdomen'), ('lumbosacral', 'hip/groin'), ('abdomen', 'hip/groin'),
    ('hip/groin', 'thigh'), ('thigh', 'knee'), ('knee', 'lower leg'),
    ('lower leg', 'ankle'), ('ankle', 'foot')
) AS p (area, neighbour);

-- The body areas that no guard of these kinds covers: those that adjoin a covered one, and the far
-- ones. Areas that a kind covers are covered although the scope asks for others of it.
CREATE MACRO uncovered_areas(kinds) AS TABLE
WITH covered AS (
    SELECT DISTINCT area::VARCHAR AS area FROM store.kinds WHERE list_contains(kinds, kind)
)
SELECT
    area,
    CASE WHEN bool_or(neighbour IN (SELECT area FROM covered)) THEN 'neighbouring' ELSE 'far' END
        AS nearness
FROM neighbouring_areas()
WHERE area NOT IN (SELECT area FROM covered)
GROUP BY area;
