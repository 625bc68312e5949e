"""What every step of one load works with."""

from dataclasses import dataclass, replace

from seasonboard.load_dialog import LoadDialog, UnattendedLoad
from seasonboard.load_options import LoadOptions
from seasonboard.store.intake.problems import Findings
from seasonboard.store.intake.season_rows import SeasonRows
from seasonboard.store.intake.synonyms import Synonyms, synonyms_beside
from seasonboard.store.store import Store


@dataclass(frozen=True, slots=True)
class LoadContext:
    """One load: what is wished of it, who answers, what is there, and what is wrong.

    Attributes:
        options: What is wished.
        dialog: Confirms mappings, and hears what is being done.
        synonyms: What headings and values may be called.
        season: The store's rows, with the incoming ones over them.
        findings: Problems and notes.
    """

    options: LoadOptions
    dialog: LoadDialog
    synonyms: Synonyms
    season: SeasonRows
    findings: Findings


def load_context(
    store: Store, options: LoadOptions | None = None, dialog: LoadDialog | None = None
) -> LoadContext:
    """Return the context of a load into a store.

    Raises:
        IntakeError: The store's own file of spellings is wrong.
    """
    dialog = dialog or UnattendedLoad()
    options = options or dialog.options
    if options.store is None:
        options = replace(options, store=store.path)
    synonyms = synonyms_beside(options.store)
    findings = Findings([], totals=synonyms.totals, keep_rows=options.keep_good)
    return LoadContext(options, dialog, synonyms, SeasonRows(store), findings)
