-- question: When one side of an athlete was guarded and the other bare in the same session, which
--   one was hurt?
-- works on: scope
-- scope: groups
-- grain: one row per body area, athlete and outcome for pairs with an injury; one row per body area
--   (athlete_no NULL) for all pairs without
-- columns:
--   area VARCHAR               body area
--   athlete_no INTEGER         the athlete's number
--   athlete VARCHAR            the athlete's key
--   injuries_guarded BIGINT    0 or 1: the guarded side was injured
--   injuries_unguarded BIGINT  0 or 1: the bare side was injured
--   pairs BIGINT               sessions with one side guarded and the other bare
WITH marked AS (SELECT * FROM marked_sites($purpose)),
pairs AS (
    SELECT
        g.area, g.athlete_no,
        g.injured::BIGINT AS injuries_guarded,
        coalesce(o.injured, false)::BIGINT AS injuries_unguarded
    FROM marked AS g
    JOIN scoped_sites AS x ON x.area = g.area AND x.side <> g.side
    LEFT JOIN marked AS o
        ON o.session_no = g.session_no AND o.athlete_no = g.athlete_no
        AND o.area = x.area AND o.side = x.side
    WHERE g.guarded
      AND g.set_aside IS NULL
      AND CASE
          WHEN o.session_no IS NOT NULL THEN o.set_aside IS NULL AND NOT o.guarded
          ELSE $purpose <> 'return'
      END
),
kept AS (
    SELECT
        * EXCLUDE (athlete_no),
        CASE WHEN injuries_guarded + injuries_unguarded > 0 THEN athlete_no END AS athlete_no
    FROM pairs
)
SELECT
    k.area, k.athlete_no, a.athlete, k.injuries_guarded, k.injuries_unguarded,
    count(*) AS pairs
FROM kept AS k
LEFT JOIN store.athletes AS a USING (athlete_no)
GROUP BY k.area, k.athlete_no, a.athlete, k.injuries_guarded, k.injuries_unguarded
ORDER BY k.area, k.injuries_guarded DESC, k.injuries_unguarded DESC, a.athlete NULLS LAST;
