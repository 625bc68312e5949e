-- Takes out the rows that the load $load_no brought, and all that was entered about it. Its changed
-- cells were given their old values before.
DELETE FROM store.wear WHERE load_no = $load_no;
DELETE FROM store.stages WHERE load_no = $load_no;
DELETE FROM store.attendance WHERE load_no = $load_no;
DELETE FROM store.injuries WHERE load_no = $load_no;
DELETE FROM store.offers WHERE load_no = $load_no;
DELETE FROM store.decisions WHERE load_no = $load_no;
DELETE FROM store.guards WHERE load_no = $load_no;
DELETE FROM store.sessions WHERE load_no = $load_no;
DELETE FROM store.roster WHERE load_no = $load_no;
DELETE FROM store.teams WHERE load_no = $load_no;
DELETE FROM store.departments WHERE load_no = $load_no;
DELETE FROM store.kinds WHERE load_no = $load_no;
DELETE FROM store.athletes
WHERE athlete_no NOT IN (SELECT roster.athlete_no FROM store.roster AS roster);
DELETE FROM store.changes WHERE load_no = $load_no;
DELETE FROM store.origins WHERE load_no = $load_no;
DELETE FROM store.marks WHERE load_no = $load_no;
DELETE FROM store.load_tables WHERE load_no = $load_no;
DELETE FROM store.loads WHERE load_no = $load_no;
