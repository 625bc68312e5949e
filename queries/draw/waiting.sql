-- question: Who accepted a preventive guard, and waits for it or not?
-- scope: athletes, kinds
-- grain: one row per athlete on a roster that day and guard kind whose last offer was accepted
-- columns:
--   athlete VARCHAR          key
--   name VARCHAR             as in roster
--   team VARCHAR             key; of an athlete in several, that of the last season, by key
--   department VARCHAR       key
--   prints_per_week INTEGER  of the department's plan; NULL: none is recorded
--   position_group VARCHAR   as in roster; NULL: not recorded
--   kind VARCHAR             guard kind
--   side VARCHAR             of the order that is open; without one both, or midline
--   earlier_injury BOOLEAN   a site that it covers was injured before
--   set_aside VARCHAR        why it is not drawn; NULL: it waits
WITH places AS (
    SELECT *
    FROM asked_places($seasons, $departments, $teams, $sports, $sexes, $position_groups)
    WHERE is_listed(joined_on, left_on, $until::DATE - 1)
    QUALIFY row_number() OVER (PARTITION BY athlete_no ORDER BY season DESC, team) = 1
),
accepted AS (
    SELECT athlete_no, kind
    FROM store.offers
    WHERE offered_on < $until AND kind IN (FROM asked_kinds($kinds, $areas))
    GROUP BY athlete_no, kind
    HAVING max_by(answer, (offered_on, offer)) = 'accepted'
),
reached AS (
    SELECT
        g.guard_no,
        bool_or(q.stage IN ('fitted', 'retired')) AS is_fitted,
        bool_or(q.stage IN ('printed', 'finished', 'shipped', 'delivered')) AS is_printed,
        bool_or(q.stage = 'cancelled') AS is_cancelled
    FROM store.guards AS g
    JOIN athlete_zones() AS z USING (athlete_no)
    JOIN store.stages AS q USING (guard_no)
    WHERE (q.reached_at AT TIME ZONE z.time_zone)::DATE < $until
    GROUP BY g.guard_no
),
worn AS (
    SELECT DISTINCT w.guard_no
    FROM worn_guards() AS w
    JOIN store.sessions AS s USING (session_no)
    WHERE s.played_on < $until
),
guards AS (
    SELECT
        g.athlete_no, g.kind, g.side,
        g.purpose = 'preventive' AS is_preventive,
        coalesce(r.is_fitted, false) OR w.guard_no IS NOT NULL AS is_fitted,
        coalesce(r.is_printed, false) AS is_printed,
        coalesce(r.is_cancelled, false) AS is_cancelled
    FROM store.guards AS g
    LEFT JOIN reached AS r USING (guard_no)
    LEFT JOIN worn AS w USING (guard_no)
),
orders AS (
    SELECT
        athlete_no, kind,
        bool_or(is_preventive AND is_fitted) AS is_fitted,
        bool_or(is_preventive AND is_printed AND NOT is_cancelled) AS is_printed,
        bool_or(is_preventive AND is_cancelled AND NOT is_fitted) AS is_cancelled,
        bool_or(NOT is_preventive AND NOT is_fitted AND NOT is_cancelled) AS is_medical,
        list(DISTINCT side::VARCHAR ORDER BY side::VARCHAR)
            FILTER (is_preventive AND NOT is_fitted AND NOT is_cancelled) AS sides
    FROM guards
    GROUP BY athlete_no, kind
),
sided AS (
    SELECT
        a.athlete_no, a.kind, o.* EXCLUDE (athlete_no, kind, sides),
        o.sides IS NOT NULL AS is_open,
        CASE
            WHEN len(o.sides) = 1 THEN o.sides[1]
            WHEN k.only_midline THEN 'midline'
            ELSE 'both'
        END AS side
    FROM accepted AS a
    JOIN (
        SELECT kind, bool_and(sides_of(area, 'both') = ['midline']) AS only_midline
        FROM store.kinds
        GROUP BY kind
    ) AS k USING (kind)
    LEFT JOIN orders AS o USING (athlete_no, kind)
),
hurt AS (
    SELECT s.athlete_no, s.kind, bool_or(i.is_open) AS is_out
    FROM sided AS s
    JOIN store.kinds AS k USING (kind)
    JOIN site_injuries($until) AS i
        ON i.athlete_no = s.athlete_no AND i.area = k.area::VARCHAR
        AND list_contains(sides_of(k.area, s.side), i.side)
    GROUP BY s.athlete_no, s.kind
),
had AS (
    SELECT athlete_no, kind, min(draw) AS draw
    FROM store.turns
    WHERE drawn_on < $until
    GROUP BY athlete_no, kind
)
SELECT
    n.athlete, p.name, p.team, p.department, z.prints_per_week, p.position_group, s.kind, s.side,
    h.athlete_no IS NOT NULL AS earlier_injury,
    CASE
        WHEN s.is_fitted THEN 'such a guard was fitted or worn already'
        WHEN d.draw IS NOT NULL THEN 'it has a turn already'
        WHEN s.is_medical THEN 'a guard made for return is on its way: medical need'
        WHEN h.is_out THEN 'hurt at the site and not back: medical need'
        WHEN s.is_printed THEN 'it is printed already'
        WHEN s.is_cancelled AND NOT s.is_open THEN 'its order was cancelled'
    END AS set_aside
FROM sided AS s
JOIN places AS p USING (athlete_no)
JOIN store.departments AS z ON z.department = p.department
JOIN store.athletes AS n USING (athlete_no)
LEFT JOIN hurt AS h USING (athlete_no, kind)
LEFT JOIN had AS d USING (athlete_no, kind)
WHERE is_asked_side($sides, s.side)
ORDER BY p.team, p.position_group NULLS LAST, n.athlete, s.kind;
