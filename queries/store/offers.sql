-- question: Which offers does the store hold, as they are loaded?
-- grain: one row per offer
-- columns:
--   offer       VARCHAR  key
--   athlete     VARCHAR  key
--   kind        VARCHAR  key
--   offered_on  DATE     day
--   answer      VARCHAR  one of its word list
--   reason      VARCHAR  as written; NULL when not given
SELECT
    offers.offer AS offer,
    athletes.athlete AS athlete,
    offers.kind AS kind,
    offers.offered_on AS offered_on,
    CAST(offers.answer AS VARCHAR) AS answer,
    offers.reason AS reason
FROM store.offers AS offers
JOIN store.athletes AS athletes ON athletes.athlete_no = offers.athlete_no
ORDER BY offer
