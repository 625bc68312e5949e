-- question: Who is on the roster, who was offered which guard, what was the answer, who was fitted?
-- scope: guards
-- grain: one row per athlete, team and guard kind of which an offer or an order is known; and one
--   row (kind NULL) per athlete and team of which none is
-- columns:
--   athlete_no INTEGER      number of the athlete
--   athlete VARCHAR         key
--   name VARCHAR            as in roster
--   team VARCHAR            key
--   position_group VARCHAR  as in roster, of the last season in scope; NULL: not recorded
--   kind VARCHAR            guard kind
--   offers BIGINT           offers made; 0: none
--   answer VARCHAR          answer to the last offer: accepted, declined or undecided
--   reason VARCHAR          reason given with it
--   orders BIGINT           guards of which a stage is known; 0: none
--   open BIGINT             of them not yet fitted, cancelled or retired
--   fitted BIGINT           of them fitted
--   for_return BIGINT       of those fitted, made for return after an injury
WITH every_place AS (SELECT * FROM roster_places()),
places AS (
    SELECT athlete_no, team, season, name, position_group, over_at, over_on
    FROM every_place
    SEMI JOIN asked_teams($departments, $teams, $sports, $sexes) USING (team)
    WHERE coalesce(joined_on < $until, true)
      AND is_asked($seasons, season)
      AND is_asked($position_groups, position_group)
    QUALIFY row_number() OVER (
        PARTITION BY athlete_no, team ORDER BY over_at DESC NULLS FIRST, season DESC
    ) = 1
),
-- As an order, an offer belongs to the place whose season was the first to end after it, else the
-- last. From then on it holds for that team.
placed_offers AS (
    SELECT o.*, r.team, r.season
    FROM store.offers AS o
    JOIN every_place AS r USING (athlete_no)
    WHERE o.offered_on < $until
      AND o.athlete_no IN (SELECT athlete_no FROM places)
      AND o.kind IN (FROM asked_kinds($kinds, $areas))
    QUALIFY row_number() OVER (
        PARTITION BY o.offer
        ORDER BY place_order(r.over_on < o.offered_on, r.over_at), r.team, r.season
    ) = 1
),
offered AS (
    SELECT
        p.athlete_no, p.team, o.kind,
        count(*) AS offers,
        max_by(o.answer::VARCHAR, (o.offered_on, o.offer)) AS answer,
        max_by(coalesce(o.reason, ''), (o.offered_on, o.offer)) AS reason
    FROM placed_offers AS o
    JOIN places AS p
        ON p.athlete_no = o.athlete_no AND p.team = o.team
        AND (p.season = o.season OR coalesce(o.offered_on <= p.over_on, true))
    GROUP BY p.athlete_no, p.team, o.kind
),
ordered AS (
    SELECT
        p.athlete_no, p.team, o.kind,
        count(*) AS orders,
        count(*) FILTER (o.state = 'open') AS open,
        count(o.fitted_at) AS fitted,
        count(o.fitted_at) FILTER (o.purpose = 'return') AS for_return
    FROM scope_orders(
        NULL, $until, $departments, $teams, $sports, $sexes, NULL, $kinds, $areas, $sides,
        $made_of
    ) AS o
    JOIN places AS p
        ON p.athlete_no = o.athlete_no AND p.team = o.team
        AND (p.season = o.season OR coalesce(o.first_stage_at <= p.over_at, true))
    GROUP BY p.athlete_no, p.team, o.kind
),
known AS (SELECT * FROM offered FULL JOIN ordered USING (athlete_no, team, kind))
SELECT
    p.athlete_no, a.athlete, p.name, p.team, p.position_group, t.kind,
    coalesce(t.offers, 0) AS offers,
    t.answer,
    nullif(t.reason, '') AS reason,
    coalesce(t.orders, 0) AS orders,
    coalesce(t.open, 0) AS open,
    coalesce(t.fitted, 0) AS fitted,
    coalesce(t.for_return, 0) AS for_return
FROM places AS p
JOIN store.athletes AS a ON a.athlete_no = p.athlete_no
LEFT JOIN known AS t ON t.athlete_no = p.athlete_no AND t.team = p.team
ORDER BY a.athlete, p.team, t.kind;
