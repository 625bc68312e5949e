-- The store, version 3: guards that were not worn, and injuries whose side is not known.
--
-- `worn` is 'no' where somebody recorded that a guard was not worn in a session; rows without it
-- are of guards that were. An injury may have no side where nobody said which,
-- and a department no plan yet.

CREATE TYPE IF NOT EXISTS store.yes_no_word AS ENUM ('yes', 'no');

ALTER TABLE store.wear ADD COLUMN IF NOT EXISTS worn store.yes_no_word;

ALTER TABLE store.injuries ALTER COLUMN side DROP NOT NULL;

ALTER TABLE store.departments ALTER COLUMN plan DROP NOT NULL;
