-- Enters the load itself: $load_no, at the present instant.
INSERT INTO store.loads (load_no, loaded_at) VALUES ($load_no, now())
