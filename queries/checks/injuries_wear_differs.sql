-- question: Which injuries say of the guard at their site what the record of wear does not?
-- touches: compare (guarded exposures), games (guarded exposures)
-- why: The injury's own word is taken. If the record is right, it is in the wrong group.
-- mend: Ask who was there, and mend the injury or the record of wear.
-- works on: checks
-- scope: checks
-- grain: one row per injury that says whether a guard was on
-- columns: doubts
WITH beside AS (
    SELECT
        i.injury,
        bool_or(m.is_worn AND s.is_at_site) AS is_worn,
        bool_or(coalesce(s.is_at_site, true)) AS may_be_worn
    FROM checked_injuries AS i
    JOIN maybe_worn() AS m USING (session_no)
    JOIN store.guards AS g ON g.guard_no = m.guard_no AND g.athlete_no = i.athlete_no
    JOIN store.kinds AS k ON k.kind = g.kind AND k.area::VARCHAR = i.area
    CROSS JOIN LATERAL (
        SELECT g.side = 'both' OR i.side IN ('both', 'midline') OR g.side::VARCHAR = i.side
            AS is_at_site
    ) AS s
    GROUP BY i.injury
)
SELECT
    department, team, athlete, name, occurred_on AS dated_on, 'injuries' AS table_name,
    injury AS key,
    CASE
        WHEN was_on = 'no' THEN 'says that no guard was on, but one is recorded as worn'
        ELSE 'says that a guard was on, but none is recorded as worn'
    END || ' at the ' || site AS detail
FROM checked_injuries
LEFT JOIN beside AS b USING (injury)
WHERE session_no IS NOT NULL
  AND CASE was_on
      WHEN 'no' THEN coalesce(b.is_worn, false)
      WHEN 'yes' THEN NOT coalesce(b.may_be_worn, false)
  END
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
