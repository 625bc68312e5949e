-- The sites that drawn turns known by `until` are about, each with the day its turn had come: the
-- first day of its week of printing and the days that a guard takes from there, rounded up. A
-- session on `come_on` or later is one of those whose turn has come; what was made, worn or swapped
-- out of turn changes nothing of it. Of a site drawn twice, by guards of two kinds, the first draw.
CREATE MACRO drawn_sites(until, kinds) AS TABLE
SELECT
    t.draw, t.athlete_no, t.kind,
    k.area::VARCHAR AS area,
    u.side, t.drawn_on,
    t.starts_on + 7 * (t.week - 1) AS turn_on,
    t.starts_on + 7 * (t.week - 1) + ceil(t.ready_days)::INTEGER AS come_on
FROM store.turns AS t
JOIN store.kinds AS k USING (kind)
CROSS JOIN unnest(sides_of(k.area, t.side)) AS u(side)
WHERE t.drawn_on < until
  AND is_asked(kinds, t.kind)
QUALIFY row_number() OVER (
    PARTITION BY t.athlete_no, k.area, u.side ORDER BY t.drawn_on, t.draw, t.turn
) = 1;
