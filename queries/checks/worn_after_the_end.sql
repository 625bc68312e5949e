-- question: Which guards were worn after they were retired or cancelled?
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
-- grain: one row per session and guard worn
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
    s.department,
    s.team,
    n.athlete,
    coalesce(r.name, n.athlete) AS name,
    s.played_on AS dated_on,
    'wear' AS table_name,
    g.guard AS key,
    'worn in session ' || s.session || ', but retired or cancelled on '
        || (t.over_at AT TIME ZONE z.time_zone)::DATE AS detail
FROM checked_wear AS w
JOIN checked_times AS t USING (guard_no)
JOIN checked_sessions AS s USING (session_no)
JOIN store.guards AS g USING (guard_no)
JOIN store.athletes AS n ON n.athlete_no = g.athlete_no
LEFT JOIN store.roster AS r
    ON r.athlete_no = g.athlete_no AND r.team = s.team AND r.season = s.season
JOIN athlete_zones() AS z ON z.athlete_no = g.athlete_no
WHERE w.starts_at > t.over_at
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
