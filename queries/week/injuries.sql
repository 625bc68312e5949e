-- question: Which injuries became known, and who returned, between two days?
-- scope: athletes
-- params:
--   since DATE                 last day that was known before
-- grain: one row per injury that became known or was over between the days, to any site
-- columns:
--   injury VARCHAR        key
--   known_on DATE         day it was reported; where none is recorded, day of onset
--   occurred_on DATE      day of onset
--   returned_on DATE      day of the return, once known
--   is_new BOOLEAN        it became known between the days
--   is_return BOOLEAN     the return was between the days
--   athlete VARCHAR       key
--   name VARCHAR          as in roster; the key where not on that roster
--   team VARCHAR          of the session, else of the athlete's season that ends first after it
--   area VARCHAR          body area
--   side VARCHAR          left, right, both or midline
--   setting VARCHAR       game or practice; NULL: no session recorded
--   is_guarded BOOLEAN    a guard of any kind was worn at a site of it; NULL: it is not known, or
--                         no session is recorded
WITH happened AS (
    SELECT
        i.*,
        coalesce(i.reported_on, i.occurred_on) AS known_on,
        CASE WHEN i.returned_on < $until THEN i.returned_on END AS back_on
    FROM store.injuries AS i
    WHERE coalesce(i.reported_on, i.occurred_on) < $until
      AND (
          coalesce(i.reported_on, i.occurred_on) > $since
          OR (i.returned_on > $since AND i.returned_on < $until)
      )
),
placed AS (
    SELECT h.*, p.name, p.team, p.season, p.position_group
    FROM happened AS h
    LEFT JOIN store.sessions AS s USING (session_no)
    JOIN roster_places() AS p ON p.athlete_no = h.athlete_no
    QUALIFY row_number() OVER (
        PARTITION BY h.injury
        ORDER BY
            coalesce(s.team = p.team AND s.season = p.season, false) DESC,
            place_order(p.over_on < h.occurred_on, p.over_at), p.team, p.season
    ) = 1
),
beside AS (  -- `is_at_site` NULL: nobody said which side was hurt, and the guard is of one side
    SELECT
        h.injury, t.is_worn,
        g.side = 'both' OR h.side IN ('both', 'midline') OR g.side = h.side AS is_at_site
    FROM happened AS h
    JOIN maybe_worn() AS t USING (session_no)
    JOIN store.guards AS g ON g.guard_no = t.guard_no AND g.athlete_no = h.athlete_no
    JOIN store.kinds AS k ON k.kind = g.kind AND k.area = h.area
),
guarded AS (
    SELECT
        injury,
        CASE
            WHEN bool_or(is_worn AND is_at_site) THEN true
            WHEN bool_or(coalesce(is_at_site, true)) THEN NULL
            ELSE false
        END AS is_guarded
    FROM beside
    GROUP BY injury
)
SELECT
    p.injury, p.known_on, p.occurred_on,
    p.back_on AS returned_on,
    p.known_on > $since AS is_new,
    coalesce(p.back_on > $since, false) AS is_return,
    a.athlete, p.name, p.team,
    p.area::VARCHAR AS area,
    p.side::VARCHAR AS side,
    s.setting::VARCHAR AS setting,
    CASE
        WHEN p.session_no IS NULL THEN NULL
        WHEN p.was_on IS NOT NULL THEN p.was_on = 'yes'
        WHEN g.injury IS NULL THEN false
        ELSE g.is_guarded
    END AS is_guarded
FROM placed AS p
JOIN store.athletes AS a ON a.athlete_no = p.athlete_no
LEFT JOIN store.sessions AS s ON s.session_no = p.session_no
LEFT JOIN guarded AS g ON g.injury = p.injury
SEMI JOIN asked_teams($departments, $teams, $sports, $sexes) AS t ON t.team = p.team
WHERE is_asked($seasons, p.season)
  AND is_asked($position_groups, p.position_group)
ORDER BY p.known_on, p.injury;
