-- question: Which injuries look like a second record of one injury?
-- touches: compare (injuries counted), games (injuries with repeats), roster (days lost)
-- why: A second record in the same session counts once in a rate, in another session twice;
--   repeats and days lost count both.
-- mend: Keep one of them, or record the later one's history as an exacerbation.
-- works on: checks
-- scope: checks
-- grain: one row per injury to the site of another of at most three days before
-- columns: doubts
SELECT
    i.department, i.team, i.athlete, i.name, i.occurred_on AS dated_on, 'injuries' AS table_name,
    i.injury AS key,
    i.site || ': injury ' || string_agg(o.injury, ', ' ORDER BY o.occurred_on, o.injury)
        || ' to the site is at most three days older' AS detail
FROM checked_injuries AS i
JOIN checked_injuries AS o
    ON o.athlete_no = i.athlete_no
    AND o.area = i.area
    AND (coalesce(o.side = i.side, true) OR 'both' IN (o.side, i.side))
    AND (o.occurred_on, o.injury) < (i.occurred_on, i.injury)
    AND i.occurred_on - o.occurred_on <= 3
GROUP BY i.department, i.team, i.athlete, i.name, i.occurred_on, i.injury, i.site
ORDER BY dated_on DESC NULLS LAST, key, athlete, detail;
