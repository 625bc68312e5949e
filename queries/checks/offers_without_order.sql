-- question: Which accepted offers were not followed by an order?
-- touches: take-up (accepted to fitted), orders (open orders)
-- why: The athlete said yes and waits for something that nobody makes; or the guard is
--   recorded under another kind.
-- mend: Order it, or record that the athlete changed his or her mind.
-- works on: checks
-- scope: checks
-- grain: one row per accepted offer whose athlete has no guard of that kind in use or on its
--   way
-- columns: doubts
SELECT
    d.department, d.team, d.athlete, d.name, o.offered_on AS dated_on, 'offers' AS table_name,
    o.offer AS key,
    o.kind || ': accepted, but no guard of that kind' AS detail
FROM store.offers AS o
JOIN checked_days AS d ON d.what = 'offer' AND d.key = o.offer
WHERE o.answer = 'accepted'
  AND is_asked($kinds, o.kind)
  AND NOT EXISTS (
      SELECT 1
      FROM store.guards AS g
      LEFT JOIN checked_times AS t USING (guard_no)
      LEFT JOIN (SELECT DISTINCT guard_no FROM store.stages) AS q USING (guard_no)
      WHERE g.athlete_no = o.athlete_no
        AND g.kind = o.kind
        AND (t.guard_no IS NOT NULL OR q.guard_no IS NULL)
        AND (t.over_at IS NULL OR t.over_at >= o.offered_on)
  )
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
