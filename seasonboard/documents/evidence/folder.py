"""The folder for a reviewer: tables, figures, what a report must say, and scripts."""

from importlib import resources
from pathlib import Path

from seasonboard.answers.evidence.tables import Evidence
from seasonboard.documents.evidence.reporting_items import reporting_items
from seasonboard.saving import files
from seasonboard.saving.tables import inert_csv

_SCRIPTS = ("remake_figures.py", "remake_figures.R")
_ALWAYS = ("exposures.csv", "columns.csv", "figures.csv", "reporting_items.md", *_SCRIPTS)


def refuse_taken(folder: Path) -> None:
    """Refuse a folder that holds evidence, before a season is read for it.

    Raises:
        SavingError: It does.
    """
    files.refuse_present(folder / name for name in _ALWAYS)


def write_evidence(evidence: Evidence, folder: Path, *, may_replace: bool) -> list[Path]:
    """Write the folder, each file whole; return the files.

    Raises:
        SavingError: A file is there and may not be replaced, or one could not be written.
    """
    shipped = resources.files(__package__)
    data = {
        **{f"{name}.csv": inert_csv(table) for name, table in evidence.tables.items()},
        "columns.csv": inert_csv(evidence.dictionary),
        "figures.csv": inert_csv(evidence.figures()),
        "reporting_items.md": reporting_items(evidence).encode(),
        **{name: shipped.joinpath(name).read_bytes() for name in _SCRIPTS},
    }
    try:
        folder.mkdir(mode=0o700, exist_ok=True)
    except OSError as error:
        raise files.SavingError(
            f"{folder} could not be made: {error.strerror}.", "Name another folder."
        ) from error
    paths = {folder / name: content for name, content in data.items()}
    files.save(paths, may_replace=may_replace)
    return list(paths)
