"""What Compare and Games rest on: tables with codes in place of people, and their figures."""

import re
from collections.abc import Mapping
from dataclasses import dataclass

import polars as pl

from seasonboard.answers.compare.comparisons import HEADLINE
from seasonboard.answers.compare.parts import CompareAnswer
from seasonboard.answers.games.beside_curves import STRATUM
from seasonboard.answers.games.parts import Clock, GamesAnswer, ticking_params
from seasonboard.answers.questions import COMPARE, GAMES
from seasonboard.answers.source import AnswerSource
from seasonboard.errors import ScopeError
from seasonboard.scope import Scope
from seasonboard.stats.special import two_sided

_MEANING = re.compile(r"^--   (\w+) ([A-Z]+) +(.*)$", re.MULTILINE)


@dataclass(frozen=True, slots=True)
class Evidence:
    """Tables by the name of their question, what their columns mean, and both answers.

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

    def values(self, column: str) -> tuple[str, ...]:
        """Return the values of a column of the exposures, each once, sorted."""
        return tuple(map(str, self.tables["exposures"][column].drop_nulls().unique().sort()))

    def missing_rows(self) -> list[tuple[object, ...]]:
        """Return the headings and rows of what injuries lack by group."""
        heads = [name.replace("_", " ") for name in self.missing.columns]
        return [tuple(heads), *self.missing.rows()]

    def figures(self) -> pl.DataFrame:
        """Return `figure`, `value` and the `strata` it is in, of what the scripts re-make."""
        ratios = [self.compare.comparison(HEADLINE)]
        if drawn := self.compare.drawn_turns:
            ratios.append(drawn.comparison)
        rows: list[tuple[str, float | None, str]] = [("z", two_sided(ratios[0].ratio.level), "")]
        for one in ratios:
            parts = {"rate_ratio": one.ratio.value, "low": one.ratio.low, "high": one.ratio.high}
            rows += [(f"{one.name}, {part}", value, "") for part, value in parts.items()]
        if games := self.games:
            rows += [
                ("log-rank plain", games.log_rank.chi_square, ""),
                ("log-rank in strata", games.log_rank_stratified.chi_square, " ".join(STRATUM)),
            ]
            gap = games.one_mix.difference
            if gap.value is not None:
                span = f"more games from {gap.start} to {gap.horizon}"
                rows.append((span, gap.value, " ".join(STRATUM)))
            rows += [
                (f"uninjured after {point.tick}, {name}", point.survival, "")
                for name, group in zip(("guarded", "bare"), games.groups, strict=True)
                for point in group.curve.points
                if point.survival is not None
            ]
        return pl.DataFrame(rows, schema=["figure", "value", "strata"], orient="row")


def gather_evidence(source: AnswerSource, scope: Scope) -> Evidence:
    """Read what Compare and Games rest on, people as codes.

    Raises:
        StoreError: The store could not be read.
        ScopeError: What was asked for makes no sense, or nobody took part.
    """
    exposures, missing = source.read_covered(scope, "evidence/exposures", "evidence/missing")
    if not len(exposures):
        hint = "Load attendance, or widen the scope."
        raise ScopeError("Nobody is recorded as taking part in a session of this scope.", hint)
    tables, games, why = {"exposures": exposures}, None, ""
    compare = source.ask(COMPARE, scope)
    if compare.drawn_turns is not None:
        (tables["drawn_turns"],) = source.read_covered(scope, "evidence/drawn_turns")
    try:
        ticking = ticking_params(scope, Clock.GAMES)
        games = source.ask(GAMES, scope, verdict=compare.judged)
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
    return Evidence(tables, dictionary, compare, games, why, missing)
