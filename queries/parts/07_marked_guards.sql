-- Guards that decisions mark, as known by `until`: what is to be done with each, and when it was.
CREATE MACRO marks_known(until) AS TABLE
SELECT
    m.decision, m.guard_no, d.decided_on, d.due_on, m.to_do,
    coalesce(CASE WHEN m.done_on < until THEN m.done_on END,
             CASE WHEN d.done_on < until THEN d.done_on END) AS done_on
FROM store.marked_guards AS m
JOIN store.decisions AS d USING (decision)
WHERE d.decided_on < until;

-- How many guards each decision marks, and how many of them are done; one that marks guards is done
-- with the last of them.
CREATE MACRO decisions_known(until) AS TABLE
WITH counts AS (
    SELECT
        decision, count(*) AS marked, count(done_on) AS marked_done,
        CASE WHEN count(*) = count(done_on) THEN max(done_on) END AS all_done_on
    FROM marks_known(until)
    GROUP BY decision
)
SELECT
    d.decision, d.decided_on, d.department, d.text, d.due_on,
    coalesce(CASE WHEN d.done_on < until THEN d.done_on END, c.all_done_on) AS done_on,
    coalesce(c.marked, 0) AS marked,
    coalesce(c.marked_done, 0) AS marked_done
FROM store.decisions AS d
LEFT JOIN counts AS c USING (decision)
WHERE d.decided_on < until;

-- What a department found its sport's rules to say of a guard in games; what it did not look up is
-- not checked.
CREATE MACRO rule_in_games(of_department, of_sport, of_kind, of_purpose) AS coalesce(
    (
        SELECT r.rule::VARCHAR
        FROM store.rules AS r
        WHERE r.department = of_department AND r.sport = of_sport
          AND r.kind = of_kind AND r.purpose::VARCHAR = of_purpose
    ),
    'not checked'
);
