"""The small table of a prospect's teams: read as loads are, never written to a store."""

from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path

import polars as pl

from seasonboard.errors import Problem
from seasonboard.prospect import COLUMNS, Prospect, prospect_error, prospect_of
from seasonboard.store.intake.cleaning import clean_word, cleaned
from seasonboard.store.intake.problems import Findings, as_shown
from seasonboard.store.intake.sources import OpenSheet, open_sheets
from seasonboard.store.intake.synonyms import Synonyms, shipped_synonyms
from seasonboard.store.intake.text_columns import distinct, folded
from seasonboard.store.intake.word_spellings import meanings
from seasonboard.terms import Sex, nearest

_HEADINGS: Mapping[str, tuple[str, ...]] = {
    "sport": ("team", "team name"),
    "sex": ("gender", "men women"),
    "position_group": ("position", "positions", "group", "unit", "position unit", "pos group"),
    "athletes": ("headcount", "head count", "players", "roster", "roster size", "squad size"),
    "games": ("matches", "games a season", "games per season", "competitions", "contests"),
    "practices": ("trainings", "practices a season", "practices per season", "practises"),
}
"""What else the columns may be called; the column's own name goes first."""


_NEEDED = ("sport", "athletes", "games", "practices")
"""Columns without which no line can be whole; the sex may stand with the sport."""


def read_prospect(path: Path) -> Prospect:
    """Read the teams of a prospect from CSV, XLSX or Parquet, written in any way a load reads.

    Raises:
        IntakeError: It cannot be read, or a cell is wrong; every reason is listed.
    """
    synonyms = _synonyms()
    findings = Findings([], totals=synonyms.totals)
    sheet = _sheet(path, findings, synonyms)
    columns = {name: sheet.grid.places[heading] for heading, name in _called(sheet).items()}
    text = sheet.grid.body.select("file_row", **{one: pl.col(at) for one, at in columns.items()})
    text = text.filter(~pl.all_horizontal(pl.col(list(columns)).is_null()))
    text = _in_own_words(cleaned(text, sheet.label, findings), synonyms)
    return prospect_of(
        text.drop("file_row").to_dicts(),
        file=sheet.label,
        rows=text["file_row"].to_list(),
        notes=[one.sentence() for one in findings.notes()],
    )


def _synonyms() -> Synonyms:
    """Return the shipped table, except that the headings it knows are those of a prospect."""
    names = {folded(name) for name in COLUMNS}
    return replace(shipped_synonyms(), every_heading=frozenset(names.union(*_HEADINGS.values())))


def _sheet(path: Path, findings: Findings, synonyms: Synonyms) -> OpenSheet:
    """Return the one sheet that has a prospect's headings; note what is left aside.

    Raises:
        IntakeError: There is none, or more than one, or the file cannot be read.
    """
    if path.is_dir():
        said = "is a folder; name the CSV, XLSX or Parquet file with the prospect's teams."
        raise prospect_error([Problem(clean_word(str(path)), None, None, None, said)])
    sheets = open_sheets([path], findings, synonyms).sheets
    fit = [one for one in sheets if not _missing(one)]
    if len(fit) > 1:
        said = f"has the headings of a prospect, and so has {fit[0].label}; keep one sheet."
        findings.refuse(Problem(fit[1].label, None, None, None, said))
    elif not fit and sheets:
        _tell_missing(sheets[0], findings)
    if problems := findings.problems():
        raise prospect_error(problems)
    for other in sheets:
        if other is not fit[0]:
            findings.tell(other.label, "was left out: its headings are not those of a prospect.")
    _tell_others(fit[0], findings)
    if problems := findings.problems():
        raise prospect_error(problems)
    return fit[0]


def _called(sheet: OpenSheet) -> dict[str, str]:
    """Return heading → column of a prospect: own names first, one heading for each column."""
    called: dict[str, str] = {}
    for names in ({name: (folded(name),) for name in COLUMNS}, _HEADINGS):
        for heading in sheet.grid.headings:
            column = next((one for one, known in names.items() if folded(heading) in known), None)
            if column and heading not in called and column not in called.values():
                called[heading] = column
    return called


def _missing(sheet: OpenSheet) -> list[str]:
    have = set(_called(sheet).values())
    return [name for name in _NEEDED if name not in have]


def _others(sheet: OpenSheet) -> list[str]:
    called = _called(sheet)
    return [one for one in sheet.grid.headings if one and one not in called]


def _tell_missing(sheet: OpenSheet, findings: Findings) -> None:
    for name in _missing(sheet):
        said = f"the column is missing; a prospect needs {', '.join(COLUMNS)}."
        near = nearest(name, _others(sheet))
        findings.refuse(Problem(sheet.label, sheet.grid.header_row, name, None, said, near))


def _tell_others(sheet: OpenSheet, findings: Findings) -> None:
    """Refuse a column that stands twice; note every other one that is not read."""
    called = _called(sheet)
    for heading, column in sheet.grid.places.items():
        if heading in called:
            continue
        cell = (sheet.label, sheet.grid.header_row, None)
        base = heading.rpartition(" (")[0]
        if base in called:
            said = "stands twice in the header; keep one."
            findings.refuse(Problem(*cell, as_shown(base), said))
        elif not heading or heading.startswith("("):
            said = f"column {column.removeprefix('column_')} has values but no heading; it was "
            findings.note(Problem(*cell, None, said + "left out."))
        else:
            near = nearest(heading, [one for one in COLUMNS if one not in called.values()])
            said = "is not a column of a prospect; it was left out."
            findings.note(Problem(*cell, as_shown(heading), said, near))


def _in_own_words(text: pl.DataFrame, synonyms: Synonyms) -> pl.DataFrame:
    """Return cells with the sex in our words, and without marks that only say “nothing here”."""
    marks = pl.col([name for name in text.columns if name not in {"file_row", "sport"}])
    empty = marks.str.to_lowercase().is_in(list(synonyms.missing))
    text = text.with_columns(pl.when(~empty).then(marks))
    if "sex" not in text.columns:
        return text
    meant = meanings(distinct(text["sex"]), "sex", list(Sex), synonyms)
    return text.with_columns(pl.col("sex").replace(meant))
