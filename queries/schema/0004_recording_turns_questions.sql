-- The store, version 4: how completely wear was recorded, turns drawn at random, questions fixed
-- in advance.
--
-- `wear_complete` says whether wear was recorded for everybody in a session; `was_on` whether a
-- guard was on at the injured site. `turns` is the register of drawn orders of making guards;
-- `questions` holds what was to be looked at, fixed with a date before it was looked at.

CREATE TYPE IF NOT EXISTS store.outcome_word AS ENUM ('time loss', 'any');
CREATE TYPE IF NOT EXISTS store.settings_word AS ENUM ('games', 'practices', 'both');
CREATE TYPE IF NOT EXISTS store.comparison_word AS ENUM (
    'same session', 'alike athletes', 'same athlete', 'other side', 'drawn turns'
);

ALTER TABLE store.sessions ADD COLUMN IF NOT EXISTS wear_complete store.yes_no_word;

ALTER TABLE store.injuries ADD COLUMN IF NOT EXISTS was_on store.yes_no_word;

CREATE TABLE IF NOT EXISTS store.turns (
    draw VARCHAR NOT NULL,
    athlete_no INTEGER NOT NULL,
    kind VARCHAR NOT NULL,
    side store.side_word NOT NULL,
    stratum VARCHAR NOT NULL,
    turn INTEGER NOT NULL,
    week INTEGER NOT NULL,
    drawn_on DATE NOT NULL,
    starts_on DATE NOT NULL,
    prints_per_week INTEGER NOT NULL,
    ready_days DOUBLE NOT NULL,
    seed INTEGER NOT NULL,
    earlier_injury store.yes_no_word NOT NULL,
    board_number VARCHAR,
    no_board_reason VARCHAR,
    jumped_on DATE,
    jump_reason VARCHAR,
    load_no INTEGER,
    PRIMARY KEY (draw, athlete_no, kind, side)
);

CREATE TABLE IF NOT EXISTS store.questions (
    asked_on DATE NOT NULL,
    kind VARCHAR NOT NULL,
    area store.area_word,
    outcome store.outcome_word NOT NULL,
    setting store.settings_word NOT NULL,
    horizon INTEGER,
    comparison store.comparison_word NOT NULL,
    load_no INTEGER,
    PRIMARY KEY (asked_on, kind)
);
