"""The headline week by week as block letters, and what it would take to know more."""

import math
from collections.abc import Callable, Sequence
from datetime import date
from typing import TYPE_CHECKING

from rich.text import Text

from seasonboard.answers import words
from seasonboard.ui.compare.forest import ROOMY, Axis, anytime_evidence
from seasonboard.ui.layout.blocks import Paper, paragraph
from seasonboard.ui.layout.format import fit

if TYPE_CHECKING:
    from seasonboard.answers.compare.parts import CompareAnswer
    from seasonboard.answers.compare.weekly_looks import Look, Watched

LEVELS = "▁▂▃▄▅▆▇"
"""From the axis' lower end to its upper one; the middle is a ratio of 1."""
UNKNOWN = "·"
_NAME = 17
_TITLE = " ratio by week"
_DATES = 16
_NOT_YET = "not known yet"


def week_by_week(watched: "Watched", axis: Axis, paper: Paper) -> tuple[Text, ...]:
    """Return the ratio after each week with an injury, its e-value at the end.

    On high paper the limits stand over and under it. Only weeks that have room are shown: every
    second, every third, the last one always.
    """
    if not watched.looks:
        return (Text(fit(_TITLE, _NAME) + "no week with an injury yet"),)
    reach = f"{1 / axis.reach:g}".removeprefix("0")
    scale = f"{LEVELS[0]} {reach} {LEVELS[3]} 1 {LEVELS[-1]} {axis.reach}"
    end = f"{scale} · e {anytime_evidence(watched.now.anytime_evidence)}"
    looks, step = _thinned(watched.looks, max(8, paper.width - _NAME - _DATES - len(end)))
    first, last = _day(looks[0].week), _day(looks[-1].week)
    ratio = _bar(looks, axis, lambda look: look.state.rate_ratio)
    lines = [Text(fit(_TITLE, _NAME) + f"{first} {ratio} {last}  {end}")]
    if paper.height >= ROOMY:
        blank = " " * (_NAME + len(first) + 1)
        upper = _bar(looks, axis, lambda look: look.state.high)
        lower = _bar(looks, axis, lambda look: look.state.low)
        quiet = paper.ink.quiet
        beside = " " * (len(last) + 3)
        lines.insert(0, Text(f"{blank}{upper}{beside}upper limit", style=quiet))
        lines.append(Text(f"{blank}{lower}{beside}lower limit", style=quiet))
    if step > 1:
        told = f"every {step} weeks with an injury, the last one included"
        lines.append(Text(" " * _NAME + told, style=paper.ink.quiet))
    return tuple(lines)


def _thinned(looks: Sequence["Look"], room: int) -> tuple[Sequence["Look"], int]:
    step = math.ceil(len(looks) / room)
    return looks[(len(looks) - 1) % step :: step], step


def _bar(looks: Sequence["Look"], axis: Axis, figure: Callable[["Look"], float | None]) -> str:
    return "".join(_level(figure(look), axis) for look in looks)


def _level(ratio: float | None, axis: Axis) -> str:
    if ratio is None:
        return UNKNOWN
    if ratio == 0:
        return LEVELS[0]
    share = (1 + math.log(ratio) / math.log(axis.reach)) / 2
    return LEVELS[min(len(LEVELS) - 1, max(0, round(share * (len(LEVELS) - 1))))]


def _day(day: date) -> str:
    return f"{day.day} {day:%b}"


def needed_lines(answer: "CompareAnswer", paper: Paper) -> tuple[Text, ...]:
    """Return what it takes to tell a ratio worth having from 1, in one sentence."""
    need, games = answer.sample_needed, answer.games_needed
    opening = f"To tell {need.ratio:g} from 1 ({words.percent(need.power)}):"
    if need.more_guarded is None:
        told = f"{_NOT_YET}, {need.why}."
    elif need.more_guarded == 0:
        told = "as many guarded site-exposures as it takes are recorded."
    else:
        pace = (
            "no game sets a pace yet"
            if games is None
            else f"some {words.plural(_rounded(games, 2), 'game')} at this pace"
        )
        more = words.whole(_rounded(need.more_guarded, 3))
        told = f"about {more} more guarded site-exposures, {pace}."
    return paragraph(f"{opening} {told}", paper.width)


def _rounded(count: int, figures: int) -> int:
    return round(count, min(0, figures - len(str(count))))
