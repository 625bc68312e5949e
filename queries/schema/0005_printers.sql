-- The store, version 5: printers, and how many hours a week they run.
--
-- A printer is named as in guards. Without a department it is the maker's own; without hours it is
-- taken to run all 168 of a week, which answers then say.

CREATE TABLE IF NOT EXISTS store.printers (
    printer VARCHAR PRIMARY KEY,
    department VARCHAR,
    hours_per_week DOUBLE,
    load_no INTEGER
);
