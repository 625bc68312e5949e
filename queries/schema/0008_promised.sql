-- The store, version 8: the day an order was promised for, and stages of which the day alone is known.
--
-- A stage without an hour stands at noon of its day in the athlete's department; `timed` says `no`.

ALTER TABLE store.guards ADD COLUMN IF NOT EXISTS promised_on DATE;
ALTER TABLE store.stages ADD COLUMN IF NOT EXISTS timed store.yes_no_word;
