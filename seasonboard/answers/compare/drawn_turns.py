"""Drawn turns: those whose turn had come against those still waiting, whoever wore what."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date

import polars as pl

from seasonboard.answers import words
from seasonboard.answers.compare import verdict as judge
from seasonboard.answers.compare.comparisons import DRAWN_TURNS, Comparison, from_counts
from seasonboard.answers.compare.recording_checks import AttendanceCheck, attendance_check
from seasonboard.answers.compare.weekly_looks import Watched, watch_weeks
from seasonboard.answers.reader import Reader, read_frames
from seasonboard.scope import Scope
from seasonboard.stats.complier_range import DrawnStrata, complier_range
from seasonboard.stats.drawn_turns import InjuriesNeeded, injuries_needed
from seasonboard.stats.estimate import Estimate
from seasonboard.stats.ratios import RateRatio

_QUESTIONS = ("compare/drawn_turns", "compare/draws", "compare/drawn_attendance")

_CELLS = (
    *("come_guarded", "come_bare", "waiting_guarded", "waiting_bare"),
    *("exposures_come", "exposures_waiting"),
)
_AS_COUNTS = {
    "injuries_guarded": pl.sum_horizontal("come_guarded", "come_bare", "come_unknown"),
    "injuries_unguarded": pl.sum_horizontal("waiting_guarded", "waiting_bare", "waiting_unknown"),
    "exposures_guarded": pl.col("exposures_come"),
    "exposures_unguarded": pl.col("exposures_waiting"),
}
"""What has come takes the columns of the guarded, what waits those of the bare."""


@dataclass(frozen=True, slots=True)
class Draw:
    """One draw: its turns of the scope's athletes, those jumped, and what the review board said."""

    draw: str
    drawn_on: date
    last_week: int
    turns: int
    jumped: int
    board_number: str | None
    no_board_reason: str | None


@dataclass(frozen=True, slots=True)
class DrawnTurns:
    """What the register of draws shows.

    In `comparison` the guarded are those whose turn had come, the bare those still waiting;
    `watched` is its anytime-valid form, `compliers` the ratio among those who wear the guard once
    their turn has come, without `unrecorded` injuries of which nobody recorded whether it was worn;
    `needed` what it takes to tell a ratio worth having from 1, `attendance` whether attendance of
    come and waiting is recorded alike.
    """

    draws: tuple[Draw, ...]
    comparison: Comparison
    watched: Watched
    compliers: Estimate
    needed: InjuriesNeeded
    attendance: AttendanceCheck
    unrecorded: int = 0

    @property
    def turns(self) -> int:
        """Return the turns of all draws."""
        return sum(one.turns for one in self.draws)

    @property
    def jumped(self) -> int:
        """Return the turns that were jumped."""
        return sum(one.jumped for one in self.draws)

    @property
    def verdict(self) -> str:
        """Return what the ratio allows one to say, by the rules of the headline."""
        return _VERDICTS[judge.verdict(self.comparison.ratio, {})]


_VERDICTS: Mapping[str, str] = {
    judge.NOTHING: "nothing to compare yet",
    judge.TOO_FEW: "too few to tell",
    judge.LESS: "less often",
    judge.MORE: "more often",
    judge.NO_LARGE: "no difference shown, and a large one is unlikely",
    judge.NONE_YET: "no difference shown yet",
}


def drawn_turns(reader: Reader, scope: Scope) -> DrawnTurns | None:
    """Return what drawn turns show within the scope; None where there is no draw in it."""
    return shown_by_turns(read_frames(reader, scope, *_QUESTIONS), scope.level)


def shown_by_turns(frames: Mapping[str, pl.DataFrame], level: float) -> DrawnTurns | None:
    """Return what drawn turns show, from the rows of its questions; None without a draw."""
    draws = tuple(Draw(**row) for row in frames["compare/draws"].iter_rows(named=True))
    if not draws:
        return None
    cells = frames["compare/drawn_turns"].with_columns(**_AS_COUNTS)
    hurt = cells.filter(pl.col("stratum").is_not_null())
    comparison = from_counts(DRAWN_TURNS, cells, level)
    ratio = replace(comparison.ratio, why=_why(comparison.ratio))
    turns = sum(one.turns for one in draws)
    return DrawnTurns(
        draws,
        replace(comparison, ratio=ratio),
        watch_weeks(hurt, level),
        complier_range(DrawnStrata(*(hurt[name].to_list() for name in _CELLS)), level=level),
        injuries_needed(
            injuries=ratio.injuries_guarded + ratio.injuries_unguarded,
            weeks=sum((one.last_week - 1) * one.turns for one in draws) / turns,
            level=level,
        ),
        attendance_check(frames["compare/drawn_attendance"], level),
        int(hurt.select(pl.sum_horizontal("come_unknown", "waiting_unknown")).sum().item()),
    )


def _why(ratio: RateRatio) -> str:
    """Return why something of the ratio is not known, in the words of turns."""
    if not ratio.informative_injuries:
        return "no injury in a session in which some turns had come and others had not"
    if ratio.value is None:
        return "nobody was hurt while waiting: no upper limit yet"
    return "" if ratio.value else "nobody was hurt whose turn had come"


def needed_sentence(drawn: DrawnTurns) -> str:
    """Return how many injuries at drawn sites are still missing."""
    need = drawn.needed
    if need.more is None:
        return f"Drawn turns: how many injuries are needed is not known, {need.why}."
    if not need.more:
        return "Drawn turns: as many injuries at drawn sites as it takes are recorded."
    more = words.plural(words.to_figures(need.more), "more injury", "more injuries")
    return (
        f"Drawn turns: about {more} at drawn sites needed to tell {need.ratio:g} from 1 "
        f"with {words.percent(need.power)} power."
    )


def turns_sentences(drawn: DrawnTurns) -> tuple[str, ...]:
    """Return what drawn turns show in sentences, what is still missing first."""
    ratio, compliers = drawn.comparison.ratio, drawn.compliers
    drawn_by = "Whose guard came first was drawn at random."
    if ratio.value is None:
        shown = f"Whether those whose turn had come were hurt less cannot be told: {ratio.why}."
    else:
        shown = (
            f"Athletes whose turn had come were hurt {words.ratio(ratio.value)} times as often as "
            f"those still waiting ({words.interval(ratio.low, ratio.high)}), whether or not they "
            f"wore it: {drawn.verdict}."
        )
    sentences = [needed_sentence(drawn), drawn_by, shown]
    if compliers.value is not None:
        sentences.append(
            f"Among those who wear it once it is there: {words.ratio(compliers.value)} times as "
            f"often ({words.interval(compliers.low, compliers.high)}); "
            "any claim is that of the turns."
        )
        if drawn.unrecorded:
            hurt = words.plural(drawn.unrecorded, "injury", "injuries")
            sentences.append(f"That leaves out {hurt} of which nobody recorded what was worn.")
    if drawn.attendance.rings:
        sentences.append("Attendance of come and waiting is not recorded alike: no claim.")
    sentences.append(jumped_sentence(drawn))
    return tuple(sentences)


def jumped_sentence(drawn: DrawnTurns) -> str:
    """Return how many draws and turns there are, and how many were jumped."""
    return (
        f"{words.plural(len(drawn.draws), 'draw')}, {words.plural(drawn.turns, 'turn')}, "
        f"{words.whole(drawn.jumped) if drawn.jumped else 'none'} of them jumped; "
        "everybody stays with the turn that was drawn."
    )
