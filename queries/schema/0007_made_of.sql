-- The store, version 7: what a guard was made of and how, guards that a decision marks, and rules.
--
-- A spool or bag of material is a lot; the name of the print settings is a profile. A decision may
-- mark guards to be inspected or replaced, each done on its own day. `rules` holds what a department
-- found a sport's rules to say; the program knows none itself. A department may have guards looked
-- at after some sessions worn, or weeks.

CREATE TYPE IF NOT EXISTS store.scan_quality_word AS ENUM ('good', 'usable', 'rescan');
CREATE TYPE IF NOT EXISTS store.inspection_word AS ENUM ('passed', 'failed');
CREATE TYPE IF NOT EXISTS store.to_do_word AS ENUM ('inspect', 'replace');
CREATE TYPE IF NOT EXISTS store.rule_word AS ENUM ('allowed', 'with covering', 'not allowed');

ALTER TABLE store.guards ADD COLUMN IF NOT EXISTS lot VARCHAR;
ALTER TABLE store.guards ADD COLUMN IF NOT EXISTS profile VARCHAR;
ALTER TABLE store.guards ADD COLUMN IF NOT EXISTS operator VARCHAR;
ALTER TABLE store.guards ADD COLUMN IF NOT EXISTS scan_id VARCHAR;
ALTER TABLE store.guards ADD COLUMN IF NOT EXISTS scan_quality store.scan_quality_word;
ALTER TABLE store.guards ADD COLUMN IF NOT EXISTS model_version VARCHAR;
ALTER TABLE store.guards ADD COLUMN IF NOT EXISTS infill_pct DOUBLE;
ALTER TABLE store.guards ADD COLUMN IF NOT EXISTS inspected_on DATE;
ALTER TABLE store.guards ADD COLUMN IF NOT EXISTS inspected_by VARCHAR;
ALTER TABLE store.guards ADD COLUMN IF NOT EXISTS inspection store.inspection_word;

ALTER TABLE store.departments ADD COLUMN IF NOT EXISTS look_after_sessions INTEGER;
ALTER TABLE store.departments ADD COLUMN IF NOT EXISTS look_after_weeks INTEGER;

CREATE TABLE IF NOT EXISTS store.marked_guards (
    decision VARCHAR NOT NULL,
    guard_no INTEGER NOT NULL,
    to_do store.to_do_word NOT NULL,
    done_on DATE,
    load_no INTEGER,
    PRIMARY KEY (decision, guard_no)
);

CREATE TABLE IF NOT EXISTS store.rules (
    department VARCHAR NOT NULL,
    sport VARCHAR NOT NULL,
    kind VARCHAR NOT NULL,
    purpose store.purpose_word NOT NULL,
    rule store.rule_word NOT NULL,
    source VARCHAR NOT NULL,
    checked_on DATE NOT NULL,
    load_no INTEGER,
    PRIMARY KEY (department, sport, kind, purpose)
);
