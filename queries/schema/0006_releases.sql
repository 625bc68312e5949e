-- The store, version 6: figures that were released for outsiders, and agreements to it.
--
-- A release is frozen. Of each kind of guard it holds the counts with what was told of each, also
-- those that were not, since the next release is compared with them, and what was worked out from
-- records and not from counts alone. A kind that was not renewed names the release it was made in.

CREATE TYPE IF NOT EXISTS store.told_word AS ENUM ('shown', 'hidden', 'within', 'not told');

CREATE TABLE IF NOT EXISTS store.releases (
    release VARCHAR PRIMARY KEY,
    released_on DATE NOT NULL,
    through DATE NOT NULL,
    form INTEGER NOT NULL,
    load_no INTEGER
);

CREATE TABLE IF NOT EXISTS store.release_blocks (
    release VARCHAR NOT NULL,
    kind VARCHAR NOT NULL,
    made_in VARCHAR NOT NULL,
    departments INTEGER NOT NULL,
    note VARCHAR,
    load_no INTEGER,
    PRIMARY KEY (release, kind)
);

CREATE TABLE IF NOT EXISTS store.release_counts (
    release VARCHAR NOT NULL,
    kind VARCHAR NOT NULL,
    count VARCHAR NOT NULL,
    value INTEGER NOT NULL,
    told store.told_word NOT NULL,
    low INTEGER,
    high INTEGER,
    few_departments store.yes_no_word NOT NULL,
    parts VARCHAR,
    load_no INTEGER,
    PRIMARY KEY (release, kind, count)
);

CREATE TABLE IF NOT EXISTS store.release_figures (
    release VARCHAR NOT NULL,
    kind VARCHAR NOT NULL,
    figure VARCHAR NOT NULL,
    estimate DOUBLE,
    estimate_low DOUBLE,
    estimate_high DOUBLE,
    words VARCHAR,
    load_no INTEGER,
    PRIMARY KEY (release, kind, figure)
);

CREATE TABLE IF NOT EXISTS store.agreements (
    department VARCHAR PRIMARY KEY,
    agreed_on DATE NOT NULL,
    words VARCHAR NOT NULL,
    load_no INTEGER
);
