-- Writes the offers of the view `incoming`; $load_no is the load. Their athletes have numbers.
-- An offer already there keeps its load and takes the new cells.
INSERT INTO store.offers (offer, athlete_no, kind, offered_on, answer, reason, load_no)
SELECT
    incoming.offer,
    athletes.athlete_no,
    incoming.kind,
    incoming.offered_on,
    incoming.answer,
    incoming.reason,
    $load_no
FROM incoming
JOIN store.athletes AS athletes ON athletes.athlete = incoming.athlete
ON CONFLICT (offer) DO UPDATE SET
    athlete_no = excluded.athlete_no,
    kind = excluded.kind,
    offered_on = excluded.offered_on,
    answer = excluded.answer,
    reason = excluded.reason
