-- Takes out all that was entered about the load $load_no, whose rows were taken out before, and the
-- numbers of athletes who have no row on a roster any more.
DELETE FROM store.athletes
WHERE athlete_no NOT IN (SELECT roster.athlete_no FROM store.roster AS roster);
DELETE FROM store.changes WHERE load_no = $load_no;
DELETE FROM store.origins WHERE load_no = $load_no;
DELETE FROM store.marks WHERE load_no = $load_no;
DELETE FROM store.load_tables WHERE load_no = $load_no;
DELETE FROM store.loads WHERE load_no = $load_no;
