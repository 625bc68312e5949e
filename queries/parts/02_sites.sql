-- The sites (area and side) that the guard kinds of the scope cover.
CREATE MACRO scope_sites(kinds, areas, sides) AS TABLE
SELECT DISTINCT k.area::VARCHAR AS area, u.side
FROM store.kinds AS k
CROSS JOIN unnest(sides_of(k.area, 'both')) AS u(side)
WHERE list_contains(kinds, k.kind)
  AND is_asked(areas, k.area::VARCHAR)
  AND is_asked(sides, u.side);

-- Full days between an injury and the return; up to the last day known while it is open.
CREATE MACRO days_lost(occurred_on, returned_on, until) AS CASE
    WHEN coalesce(returned_on >= until, true) THEN until::DATE - 1 - occurred_on
    ELSE greatest(returned_on - occurred_on - 1, 0)
END::BIGINT;

-- Injuries known by `until`, one row per site: an injury to both sides is one at each. It is known
-- once reported (or, without a report's date, once it happened). It cost time when a day was lost
-- before the return; the day of onset and the day of return are not lost. Without a return known
-- by `until` it is open, and an open injury counts as time lost.
CREATE MACRO site_injuries(until) AS TABLE
SELECT
    i.injury, i.athlete_no, i.session_no, s.starts_at, i.occurred_on,
    i.area::VARCHAR AS area,
    u.side,
    coalesce(i.returned_on >= until, true) AS is_open,
    coalesce(i.returned_on >= until OR i.returned_on - i.occurred_on > 1, true) AS time_loss,
    CASE WHEN i.returned_on < until THEN i.returned_on END AS returned_on,
    i.was_on
FROM store.injuries AS i
LEFT JOIN store.sessions AS s USING (session_no)
CROSS JOIN unnest(
    CASE WHEN i.side = 'both' THEN ['left', 'right'] ELSE [i.side::VARCHAR] END
) AS u(side)
WHERE coalesce(i.reported_on, i.occurred_on) < until;
