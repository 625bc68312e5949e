"""The folder for a reviewer: tables with codes in place of people, figures, and what is missing."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from importlib import resources
from pathlib import Path

import polars as pl

from seasonboard.answers.compare.comparisons import HEADLINE
from seasonboard.answers.compare.parts import CompareAnswer
from seasonboard.answers.games.beside_curves import STRATUM
from seasonboard.answers.games.parts import Clock, GamesAnswer, ticking_params
from seasonboard.answers.questions import COMPARE, GAMES
from seasonboard.answers.source import AnswerSource
from seasonboard.documents.evidence.reporting_items import reporting_items
from seasonboard.errors import ScopeError
from seasonboard.saving import files
from seasonboard.saving.text import guarded
from seasonboard.scope import Scope
from seasonboard.stats.special import two_sided

_MEANING = re.compile(r"^--   (\w+) ([A-Z]+) +(.*)$", re.MULTILINE)
_SCRIPTS = ("remake_figures.py", "remake_figures.R")


@dataclass(frozen=True, slots=True)
class EvidenceFolder:
    """What goes into the folder: tables by the name of their question, figures, and answers.

    `games` is None, with `why_no_games`, where the scope has no games.
    """

    tables: Mapping[str, pl.DataFrame]
    dictionary: pl.DataFrame
    compare: CompareAnswer
    games: GamesAnswer | None
    why_no_games: str
    missing: pl.DataFrame

    @property
    def rows(self) -> int:
        """Return how many rows its tables hold together."""
        return sum(len(table) for table in self.tables.values())


def gather_evidence(source: AnswerSource, scope: Scope) -> EvidenceFolder:
    """Read what Compare and Games rest on, people as codes.

    Raises:
        StoreError: The store could not be read.
        ScopeError: What was asked for makes no sense.
    """
    exposures, missing = source.read_covered(scope, "evidence/exposures", "evidence/missing")
    tables, games, why = {"exposures": exposures}, None, ""
    try:
        ticking = ticking_params(scope, Clock.GAMES)
        games = source.ask(GAMES, scope)
        (tables["start_stop"],) = source.read_covered(scope, "evidence/start_stop", **ticking)
    except ScopeError as error:
        why = error.what
    dictionary = pl.DataFrame(
        [
            (f"{name}.csv", *row)
            for name in tables
            for row in _MEANING.findall(source.question_text(f"evidence/{name}"))
        ],
        schema=["file", "column", "type", "meaning"],
        orient="row",
    ).filter(pl.col("column").is_in([c for table in tables.values() for c in table.columns]))
    return EvidenceFolder(tables, dictionary, source.ask(COMPARE, scope), games, why, missing)


def figures(evidence: EvidenceFolder) -> pl.DataFrame:
    """Return the figures that the scripts re-make: `figure`, `value`, and the `strata` it is in."""
    headline = evidence.compare.comparison(HEADLINE).ratio
    rows: list[tuple[str, float | None, str]] = [
        ("z", two_sided(headline.level), ""),
        ("same session, rate_ratio", headline.value, ""),
        ("same session, low", headline.low, ""),
        ("same session, high", headline.high, ""),
    ]
    if games := evidence.games:
        rows += [
            ("log-rank plain", games.log_rank.chi_square, ""),
            ("log-rank in strata", games.log_rank_stratified.chi_square, " ".join(STRATUM)),
        ]
        rows += [
            (f"uninjured after {point.tick}, {name}", point.survival, "")
            for name, group in zip(("guarded", "bare"), games.groups, strict=True)
            for point in group.curve.points
            if point.survival is not None
        ]
    return pl.DataFrame(rows, schema=["figure", "value", "strata"], orient="row")


def write_evidence(evidence: EvidenceFolder, folder: Path, *, may_replace: bool) -> list[Path]:
    """Write the folder, each file whole; return the files.

    Raises:
        SavingError: A file is there and may not be replaced, or one could not be written.
    """
    shipped = resources.files(__package__)
    data = {
        **{f"{name}.csv": _csv(table) for name, table in evidence.tables.items()},
        "columns.csv": _csv(evidence.dictionary),
        "figures.csv": _csv(figures(evidence)),
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


def _csv(table: pl.DataFrame) -> bytes:
    texts = [name for name, kind in table.schema.items() if kind == pl.String]
    safe = {name: {text: guarded(text) for text in table[name].drop_nulls().unique()}
            for name in texts}  # fmt: skip
    inert = [pl.col(name).replace(words) for name, words in safe.items() if words]
    return table.with_columns(inert).write_csv().encode()
