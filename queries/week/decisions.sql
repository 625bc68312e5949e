-- question: Which decisions were made or done between two days, and which are still to be done?
-- scope: departments
-- params:
--   since DATE             last day that was known before
--   until DATE             first day not yet known (the day after "through")
-- grain: one row per decision that was made or done between the days, or is still to be done
-- columns:
--   decision VARCHAR         key
--   decided_on DATE          its day
--   department VARCHAR       key; NULL: it concerns every department
--   department_name VARCHAR  its name
--   text VARCHAR             as it was written
--   due_on DATE              NULL: no day was set
--   done_on DATE             once known; of one that marks guards, when the last was done
--   marked BIGINT            guards that it marks
--   marked_done BIGINT       of them done
SELECT
    d.decision, d.decided_on, d.department,
    n.name AS department_name,
    d.text, d.due_on, d.done_on, d.marked, d.marked_done
FROM decisions_known($until) AS d
LEFT JOIN store.departments AS n USING (department)
WHERE (d.decided_on > $since OR d.done_on > $since OR d.done_on IS NULL)
  AND (
      d.department IS NULL
      OR d.department IN (SELECT department FROM asked_teams($departments, $teams, $sports, $sexes))
      OR (
          $teams IS NULL AND $sports IS NULL AND $sexes IS NULL
          AND is_asked($departments, d.department)
      )
  )
ORDER BY d.due_on NULLS LAST, d.decided_on, d.decision;
