-- question: Which guards were offered between two days, and what was the answer?
-- scope: athletes
-- params:
--   since DATE                 last day that was known before
--   kinds VARCHAR[]            guard kinds; never NULL
--   areas VARCHAR[]            body areas, of those the kinds cover
-- grain: one row per offer
-- columns:
--   offer VARCHAR    key
--   offered_on DATE  its day
--   athlete VARCHAR  key
--   name VARCHAR     as in roster
--   team VARCHAR     of the athlete's seasons, the one that ends first after the offer
--   kind VARCHAR     guard kind
--   answer VARCHAR   accepted, declined or undecided
--   reason VARCHAR   NULL: none recorded
--   rule VARCHAR     in games, of a preventive one: as looked up, or not checked
WITH placed AS (
    SELECT o.*, p.name, p.team, p.season, p.position_group
    FROM store.offers AS o
    JOIN roster_places() AS p USING (athlete_no)
    WHERE o.offered_on > $since
      AND o.offered_on < $until
      AND o.kind IN (FROM asked_kinds($kinds, $areas))
    QUALIFY row_number() OVER (
        PARTITION BY o.offer
        ORDER BY place_order(p.over_on < o.offered_on, p.over_at), p.team, p.season
    ) = 1
)
SELECT
    p.offer, p.offered_on, a.athlete, p.name, p.team, p.kind,
    p.answer::VARCHAR AS answer,
    p.reason,
    rule_in_games(t.department, t.sport, p.kind, 'preventive') AS rule
FROM placed AS p
JOIN store.athletes AS a ON a.athlete_no = p.athlete_no
JOIN asked_teams($departments, $teams, $sports, $sexes) AS t ON t.team = p.team
WHERE is_asked($seasons, p.season)
  AND is_asked($position_groups, p.position_group)
ORDER BY p.offered_on, p.offer;
