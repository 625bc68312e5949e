"""Where a person is while files are loaded, and what the keys do there."""

from enum import Enum


class LoadStep(Enum):
    """Where the person is, and what the keys do there."""

    STORE = "↵ takes it · Tab completes · Esc back to the files"
    PATH = "↑↓ choose · ↵ takes it · type to narrow, or a path · Tab completes · Esc leaves"
    BUSY = "Esc stops"
    ASKED = "↑↓ choose · ↵ takes it · - leaves it out · PgUp PgDn read on · Esc back"
    FILL = "↵ takes the value · Esc back"
    PLAN = "^s writes it · ↑↓ ↵ change it · - leaves it out · PgUp PgDn read on · Esc back"


TITLES = {
    LoadStep.STORE: "Into a store of your own, made if there is none: its file",
    LoadStep.PATH: "A table, workbook, bundle or folder of tables, newest first",
}
"""What is asked for where something is typed."""
