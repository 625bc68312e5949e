-- question: Which orders belong to one group?
-- works on: orders
-- scope: guards
-- params:
--   by VARCHAR                 what they are grouped by: department, plan, kind, scan-method, printer
--   member VARCHAR             key of the group; empty: where it is not recorded
-- grain: one row per order (a guard of which a stage is known) of the group
-- columns:
--   guard VARCHAR             key
--   athlete VARCHAR           key
--   name VARCHAR              of the athlete, as in roster
--   team VARCHAR              key
--   kind VARCHAR              guard kind
--   side VARCHAR              left, right, both or midline
--   purpose VARCHAR           preventive or return
--   state VARCHAR             open, fitted, cancelled or retired
--   stage VARCHAR             reached last, by its place in the row of stages
--   requested_at TIMESTAMPTZ  first stamp; NULL: not reached (as below)
--   scanned_at TIMESTAMPTZ    first stamp
--   modelled_at TIMESTAMPTZ   first stamp
--   printed_at TIMESTAMPTZ    first stamp
--   finished_at TIMESTAMPTZ   first stamp
--   shipped_at TIMESTAMPTZ    first stamp
--   delivered_at TIMESTAMPTZ  first stamp
--   fitted_at TIMESTAMPTZ     first stamp
--   scan_method VARCHAR       scanner or phone; NULL: not recorded
--   printer VARCHAR           NULL: not recorded
--   remake_of VARCHAR         guard that it replaces; NULL: none
--   rule VARCHAR              in games: allowed, with covering, not allowed or not checked
SELECT
    guard, athlete, name, team, kind, side, purpose, state, stage, requested_at, scanned_at,
    modelled_at, printed_at, finished_at, shipped_at, delivered_at, fitted_at, scan_method,
    printer, remake_of, rule_in_games(department, sport, kind, purpose) AS rule
FROM scoped_orders
WHERE coalesce(
    CASE $by
        WHEN 'department' THEN department
        WHEN 'plan' THEN plan::VARCHAR
        WHEN 'kind' THEN kind
        WHEN 'scan-method' THEN scan_method
        WHEN 'printer' THEN printer
    END,
    ''
) = $member
ORDER BY guard;
