-- question: Which stages are dated after the moment they were loaded?
-- works on: checks
-- params:
--   seasons VARCHAR[]          seasons of the scope, NULL for all (so too the lists below)
--   until DATE                 first day not yet known (the day after "through")
--   departments VARCHAR[]      departments
--   teams VARCHAR[]            teams
--   sports VARCHAR[]           sports
--   sexes VARCHAR[]            sexes of the teams
--   settings VARCHAR[]         game, practice
--   position_groups VARCHAR[]  position groups, as in roster
--   kinds VARCHAR[]            guard kinds; NULL: guards and injuries of every kind
--   areas VARCHAR[]            body areas
--   sides VARCHAR[]            sides
-- grain: one row per guard and stage dated after its load and after the last session with
--   attendance
-- columns:
--   department VARCHAR  key; NULL where the row belongs to none
--   team VARCHAR        key
--   athlete VARCHAR     key
--   name VARCHAR        as in roster; the key where not on that roster
--   dated_on DATE       the day it is about
--   table_name VARCHAR  the table the row is in
--   key VARCHAR         key of the row there; of attendance the session, of wear the guard
--   detail VARCHAR      what is doubtful, in words
SELECT
    g.department,
    g.team,
    g.athlete,
    g.name,
    (q.reached_at AT TIME ZONE q.time_zone)::DATE AS dated_on,
    'stages' AS table_name,
    g.guard AS key,
    q.stage || ' on ' || (q.reached_at AT TIME ZONE q.time_zone)::DATE
        || ', but loaded before' AS detail
FROM checked_stages AS q
JOIN store.loads AS l USING (load_no)
JOIN checked_guards AS g USING (guard_no)
WHERE q.reached_at > l.loaded_at
  AND q.reached_at > (
      SELECT coalesce(max(starts_at), '-infinity') FROM store.sessions SEMI JOIN store.attendance
          USING (session_no)
  )
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
