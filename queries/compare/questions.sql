-- question: Which questions about these kinds of guard were fixed by then, and when did the season
--   begin?
-- works on: scope
-- scope: teams
-- params:
--   kinds VARCHAR[]      guard kinds; never NULL
-- grain: one row per question
-- columns:
--   asked_on DATE        day it was fixed
--   kind VARCHAR         kind of guard
--   area VARCHAR         body area; NULL: all that the kind covers
--   outcome VARCHAR      time loss or any
--   setting VARCHAR      games, practices or both
--   horizon INTEGER      games looked ahead; NULL where not fixed
--   comparison VARCHAR   the comparison that is to decide
--   recorded_on DATE     day on which it came into this store, in UTC; NULL where not known
--   first_on DATE        first session of the scope's teams and seasons; NULL where there is none
SELECT
    q.asked_on, q.kind,
    q.area::VARCHAR AS area,
    q.outcome::VARCHAR AS outcome,
    q.setting::VARCHAR AS setting,
    q.horizon,
    q.comparison::VARCHAR AS comparison,
    (l.loaded_at AT TIME ZONE 'UTC')::DATE AS recorded_on,
    (SELECT min(played_on) FROM season_sessions) AS first_on
FROM store.questions AS q
LEFT JOIN store.loads AS l USING (load_no)
WHERE list_contains($kinds, q.kind) AND q.asked_on < $until
ORDER BY q.asked_on, q.kind;
