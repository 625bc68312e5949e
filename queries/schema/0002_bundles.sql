-- The store, version 2: what two stores need to know of each other.
--
-- Every load that brought something of its own has a mark, a random word that no other load of any
-- store has. `marks` holds the marks of all loads whose content this store has taken in, its own
-- and those that came in bundles; `load_no` is the load here by which it did. A copy of a store
-- keeps the marks, so that both know what they have in common.
-- `origins` says of rows and cells that came in a bundle which load first brought them; a row
-- without a `column_name` speaks for the whole row. All others come from the load that `load_no`
-- or `changes` names.

CREATE TABLE IF NOT EXISTS store.marks (
    mark VARCHAR PRIMARY KEY,
    load_no INTEGER NOT NULL,
    made_at TIMESTAMPTZ NOT NULL,
    is_own BOOLEAN NOT NULL
);

CREATE TABLE IF NOT EXISTS store.origins (
    load_no INTEGER NOT NULL,
    table_name VARCHAR NOT NULL,
    row_key VARCHAR NOT NULL,
    column_name VARCHAR,
    mark VARCHAR NOT NULL
);

INSERT INTO store.marks (mark, load_no, made_at, is_own)
SELECT CAST(uuid() AS VARCHAR), loads.load_no, loads.loaded_at, true
FROM store.loads AS loads
WHERE loads.load_no NOT IN (SELECT marks.load_no FROM store.marks AS marks);

INSERT INTO store.about (name, value)
SELECT 'store_id', CAST(uuid() AS VARCHAR)
WHERE NOT EXISTS (FROM store.about AS about WHERE about.name = 'store_id');
