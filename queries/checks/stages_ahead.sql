-- question: Which stages are dated after the moment they were loaded?
-- touches: turnaround (time from stage to stage), orders (open orders), week (orders)
-- why: What has not happened yet counts as reached from its day on, and “through” the last
--   day known means that day.
-- mend: Mend the year or the month; a plan is not a stage.
-- works on: checks
-- scope: checks
-- grain: one row per guard and stage dated after its load and after the last session with
--   attendance
-- columns: doubts
SELECT
    g.department, g.team, g.athlete, g.name, q.reached_on AS dated_on, 'stages' AS table_name,
    g.guard AS key,
    q.stage || ' on ' || q.reached_on || ', but loaded before' AS detail
FROM checked_stages AS q
JOIN store.loads AS l USING (load_no)
JOIN checked_guards AS g USING (guard_no)
WHERE q.reached_at > l.loaded_at
  AND q.reached_at > (
      SELECT coalesce(max(starts_at), '-infinity') FROM store.sessions SEMI JOIN store.attendance
          USING (session_no)
  )
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
