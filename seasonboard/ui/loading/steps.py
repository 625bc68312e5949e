"""Where a person is while files are loaded, and what the keys do there."""

from enum import Enum


class LoadStep(Enum):
    """Where the person is, and what the keys do there."""

    STORE = "↵ takes it · Tab completes · Esc leaves"
    PATH = "↵ reads it · Tab completes · Esc leaves"
    BUSY = "Esc stops"
    ASKED = "↑↓ choose · ↵ takes it · PgUp PgDn read on · Esc another file"
    FILL = "↵ takes the value · Esc back"
    PLAN = "^s writes it · ↑↓ read on · Esc another file"


TITLES = {
    LoadStep.STORE: "A store of your own, made if there is none: its file",
    LoadStep.PATH: "A folder of tables, a CSV, XLSX or Parquet file, or a bundle",
}
"""What is asked for where something is typed."""
