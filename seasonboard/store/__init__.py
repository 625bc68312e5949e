"""The store: one DuckDB file, its questions, and what comes into it."""
