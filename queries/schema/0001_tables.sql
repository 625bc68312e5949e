-- The store, version 1: the tables of a season.
--
-- Closed word lists are ENUMs (the same words as seasonboard/terms.py; a test holds them equal).
-- Sessions, athletes and guards carry a small number beside their text key; the long tables
-- (attendance, wear) hold only those numbers and are written in their order, so that DuckDB's
-- zone maps skip what a question does not need. Numbers are given in the order
-- season, department, start, and never change.
-- `load_no` is the load that brought a row. `changes` keeps every changed cell.

CREATE TYPE store.plan_word AS ENUM ('onsite printer', 'weekly allotment');
CREATE TYPE store.sex_word AS ENUM ('women', 'men', 'mixed');
CREATE TYPE store.setting_word AS ENUM ('game', 'practice');
CREATE TYPE store.season_part_word AS ENUM ('preseason', 'regular', 'postseason');
CREATE TYPE store.part_word AS ENUM ('full', 'limited', 'out');
CREATE TYPE store.out_reason_word AS ENUM ('injury', 'illness', 'selection', 'personal', 'other');
CREATE TYPE store.side_word AS ENUM ('left', 'right', 'both', 'midline');
CREATE TYPE store.purpose_word AS ENUM ('preventive', 'return');
CREATE TYPE store.function_word AS ENUM ('impact', 'support');
CREATE TYPE store.scan_method_word AS ENUM ('scanner', 'phone');
CREATE TYPE store.stage_word AS ENUM (
    'requested', 'scanned', 'modelled', 'printed', 'finished',
    'shipped', 'delivered', 'fitted', 'retired', 'cancelled'
);
CREATE TYPE store.remake_reason_word AS ENUM (
    'fit', 'damage', 'print fault', 'scan fault', 'lost', 'body change', 'worn out'
);
CREATE TYPE store.kept_on_word AS ENUM ('all', 'part');
CREATE TYPE store.area_word AS ENUM (
    'head', 'neck', 'shoulder', 'upper arm', 'elbow', 'forearm', 'wrist', 'hand', 'chest',
    'thoracic spine', 'lumbosacral', 'abdomen', 'hip/groin', 'thigh', 'knee', 'lower leg',
    'ankle', 'foot', 'region unspecified', 'multiple'
);
CREATE TYPE store.tissue_word AS ENUM (
    'muscle/tendon', 'nervous', 'bone', 'cartilage/synovium/bursa', 'ligament/joint capsule',
    'superficial tissues/skin', 'vessels', 'stump', 'internal organs', 'non-specific'
);
CREATE TYPE store.pathology_word AS ENUM (
    'muscle injury', 'muscle contusion', 'muscle compartment syndrome', 'tendinopathy',
    'tendon rupture', 'brain/spinal cord injury', 'peripheral nerve injury', 'fracture',
    'bone stress injury', 'bone contusion', 'avascular necrosis', 'physis injury',
    'cartilage injury', 'arthritis', 'synovitis/capsulitis', 'bursitis', 'joint sprain',
    'chronic instability', 'contusion', 'laceration', 'abrasion', 'vascular trauma',
    'stump injury', 'organ trauma', 'injury without tissue type specified'
);
CREATE TYPE store.onset_word AS ENUM ('acute sudden', 'repetitive sudden', 'repetitive gradual');
CREATE TYPE store.mechanism_word AS ENUM ('direct contact', 'indirect contact', 'non-contact');
CREATE TYPE store.history_word AS ENUM ('new', 'local', 'reinjury', 'exacerbation');
CREATE TYPE store.offer_answer_word AS ENUM ('accepted', 'declined', 'undecided');

CREATE TABLE store.about (
    name VARCHAR PRIMARY KEY,
    value VARCHAR NOT NULL
);

CREATE TABLE store.kinds (
    kind VARCHAR NOT NULL,
    area store.area_word NOT NULL,
    function store.function_word,
    load_no INTEGER,
    PRIMARY KEY (kind, area)
);

CREATE TABLE store.departments (
    department VARCHAR PRIMARY KEY,
    name VARCHAR NOT NULL,
    plan store.plan_word NOT NULL,
    prints_per_week INTEGER,
    time_zone VARCHAR NOT NULL,
    since DATE,
    load_no INTEGER
);

CREATE TABLE store.teams (
    team VARCHAR PRIMARY KEY,
    department VARCHAR NOT NULL,
    sport VARCHAR NOT NULL,
    sex store.sex_word NOT NULL,
    load_no INTEGER
);

CREATE TABLE store.athletes (
    athlete_no INTEGER PRIMARY KEY,
    athlete VARCHAR NOT NULL UNIQUE
);

CREATE TABLE store.roster (
    athlete_no INTEGER NOT NULL,
    team VARCHAR NOT NULL,
    season VARCHAR NOT NULL,
    name VARCHAR NOT NULL,
    jersey VARCHAR,
    position VARCHAR,
    position_group VARCHAR,
    joined_on DATE,
    left_on DATE,
    load_no INTEGER,
    PRIMARY KEY (athlete_no, team, season)
);

CREATE TABLE store.sessions (
    session_no INTEGER PRIMARY KEY,
    session VARCHAR NOT NULL UNIQUE,
    team VARCHAR NOT NULL,
    season VARCHAR NOT NULL,
    starts_at TIMESTAMPTZ NOT NULL,
    played_on DATE NOT NULL,  -- the day of starts_at in the department's time zone
    setting store.setting_word NOT NULL,
    season_part store.season_part_word,
    label VARCHAR,
    load_no INTEGER
);

CREATE TABLE store.attendance (
    session_no INTEGER NOT NULL,
    athlete_no INTEGER NOT NULL,
    part store.part_word NOT NULL,
    reason store.out_reason_word,
    minutes DOUBLE,
    plays INTEGER,
    load_no INTEGER,
    PRIMARY KEY (session_no, athlete_no)
);

CREATE TABLE store.guards (
    guard_no INTEGER PRIMARY KEY,
    guard VARCHAR NOT NULL UNIQUE,
    athlete_no INTEGER NOT NULL,
    kind VARCHAR NOT NULL,
    side store.side_word NOT NULL,
    purpose store.purpose_word NOT NULL,
    function store.function_word,
    scan_method store.scan_method_word,
    material VARCHAR,
    shell_mm DOUBLE,
    liner_mm DOUBLE,
    contact_pct DOUBLE,
    mass_g DOUBLE,
    printer VARCHAR,
    print_hours DOUBLE,
    remake_of VARCHAR,
    remake_reason store.remake_reason_word,
    load_no INTEGER
);

CREATE TABLE store.stages (
    guard_no INTEGER NOT NULL,
    stage store.stage_word NOT NULL,
    reached_at TIMESTAMPTZ NOT NULL,
    note VARCHAR,
    load_no INTEGER,
    PRIMARY KEY (guard_no, stage, reached_at)
);

CREATE TABLE store.wear (
    session_no INTEGER NOT NULL,
    guard_no INTEGER NOT NULL,
    kept_on store.kept_on_word,
    load_no INTEGER,
    PRIMARY KEY (session_no, guard_no)
);

CREATE TABLE store.injuries (
    injury VARCHAR PRIMARY KEY,
    athlete_no INTEGER NOT NULL,
    occurred_on DATE NOT NULL,
    session_no INTEGER,
    area store.area_word NOT NULL,
    side store.side_word NOT NULL,
    tissue store.tissue_word,
    pathology store.pathology_word,
    onset store.onset_word,
    mechanism store.mechanism_word,
    history store.history_word,
    reported_on DATE,
    returned_on DATE,
    note VARCHAR,
    load_no INTEGER
);

CREATE TABLE store.offers (
    offer VARCHAR PRIMARY KEY,
    athlete_no INTEGER NOT NULL,
    kind VARCHAR NOT NULL,
    offered_on DATE NOT NULL,
    answer store.offer_answer_word NOT NULL,
    reason VARCHAR,
    load_no INTEGER
);

CREATE TABLE store.decisions (
    decision VARCHAR PRIMARY KEY,
    decided_on DATE NOT NULL,
    department VARCHAR,
    text VARCHAR NOT NULL,
    due_on DATE,
    done_on DATE,
    load_no INTEGER
);

CREATE TABLE store.loads (
    load_no INTEGER PRIMARY KEY,
    loaded_at TIMESTAMPTZ NOT NULL
);

CREATE TABLE store.load_tables (
    load_no INTEGER NOT NULL,
    file VARCHAR NOT NULL,
    sha256 VARCHAR NOT NULL,
    table_name VARCHAR NOT NULL,
    new_rows BIGINT NOT NULL,
    changed_rows BIGINT NOT NULL,
    same_rows BIGINT NOT NULL,
    PRIMARY KEY (load_no, file)
);

CREATE TABLE store.changes (
    load_no INTEGER NOT NULL,
    file VARCHAR NOT NULL,
    file_row BIGINT NOT NULL,
    table_name VARCHAR NOT NULL,
    row_key VARCHAR NOT NULL,
    column_name VARCHAR NOT NULL,
    old_value VARCHAR,
    new_value VARCHAR
);
