"""The headline week by week as block letters."""

import math
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from rich.text import Text

from seasonboard.answers.compare.report import evidence_words
from seasonboard.ui.compare.forest import ROOMY, Axis
from seasonboard.ui.layout.blocks import Paper
from seasonboard.ui.layout.format import day, fit

if TYPE_CHECKING:
    from seasonboard.answers.compare.weekly_looks import Look, Watched

LEVELS = "▁▂▃▄▅▆▇"
"""From the axis' lower end to its upper one; the middle is a ratio of 1."""
UNKNOWN = "·"
_NAME = 17
_TITLE = " ratio by week"
_DATES = 16


def week_by_week(watched: "Watched", axis: Axis, paper: Paper) -> tuple[Text, ...]:
    """Return the ratio after each week with an injury, the anytime evidence at the end.

    On high paper the limits stand over and under it. Only weeks that have room are shown: every
    second, every third, the last one always.
    """
    if not watched.looks:
        return (Text(fit(_TITLE, _NAME) + "no week with an injury yet"),)
    reach = f"{1 / axis.reach:g}".removeprefix("0")
    scale = f"{LEVELS[0]} {reach} {LEVELS[3]} 1 {LEVELS[-1]} {axis.reach}"
    end = f"{scale} · e {evidence_words(watched.now)}"
    looks, step = _thinned(watched.looks, max(8, paper.width - _NAME - _DATES - len(end)))
    first, last = day(looks[0].week), day(looks[-1].week)
    ratio = _bar(looks, axis, lambda look: look.state.value)
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
        skips = f"every {step} weeks with an injury, the last one included"
        lines.append(Text(" " * _NAME + skips, style=paper.ink.quiet))
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
