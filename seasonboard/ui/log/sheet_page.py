"""The sheet of one session as lines: what saving will write about each athlete."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from rich.text import Text

from seasonboard.answers import words
from seasonboard.answers.log.parts import LogAthlete, LogGuard, LogSheet, Mark
from seasonboard.answers.log.sheet_entry import Tally, is_filled, is_written, mark_words
from seasonboard.ui.layout.blocks import Block, Paper, item, paragraph
from seasonboard.ui.layout.format import MISSING, clean, fit, right

GLYPHS: Mapping[str | None, str] = {"full": "●", "limited": "◐", "out": "○", None: "·"}
NEW, CHANGED, SAME, NOTHING = "+", "~", "=", " "
PROPOSED = "proposed"
HEADS = ("#", "athlete", "written", "worn", "last time")
NOBODY = "Nobody is on the roster of this team on that day. Load roster.csv first."
_JERSEY = 4


@dataclass(frozen=True, slots=True)
class SheetShown:
    """A sheet with what stands on it, and what the intake said about whom.

    `touched` are athletes whose line was changed by hand; `is_complete` whether wear is recorded
    for everybody.
    """

    sheet: LogSheet
    marks: Mapping[str, Mark]
    touched: frozenset[str] = frozenset()
    problems: Mapping[str, Sequence[str]] = field(default_factory=dict)
    is_complete: bool | None = None

    @property
    def is_filled(self) -> bool:
        """Say whether a guard that is not ticked is written as not worn."""
        return is_filled(self.sheet.session, is_complete=self.is_complete)


def sheet_page(sheet: SheetShown, paper: Paper) -> list[Block]:
    """Return a heading and one line an athlete; what the intake said stands under it."""
    if not sheet.sheet.athletes:
        return [Block(paragraph(NOBODY, paper.width))]
    widths = _widths(paper.width)
    heading = Text(" " * 2, no_wrap=True)
    for head, width in zip(HEADS, widths, strict=True):
        heading.append(right(head, width - 1) + " " if head == HEADS[0] else fit(head, width))
    heading.stylize(paper.ink.quiet)
    blocks = [Block((heading,))]
    for one in sheet.sheet.athletes:
        line = _line(one, sheet, widths, paper)
        under = [
            text
            for sentence in sheet.problems.get(one.athlete, ())
            for text in item("  ▲", sentence, paper, "bold")
        ]
        blocks.append(Block((line, *under), name=one.athlete, heading=heading))
    return blocks


def _widths(width: int) -> tuple[int, ...]:
    """Return the columns of `HEADS`; on wide paper the last time is shown as well."""
    room = width - 2 - _JERSEY
    last = 24 if width >= 110 else 0
    name = min(30, max(16, room * 28 // 100))
    written = min(34, max(22, room * 39 // 100))
    return (_JERSEY, name, written, max(0, room - name - written - last), last)


def _line(one: LogAthlete, sheet: SheetShown, widths: Sequence[int], paper: Paper) -> Text:
    mark = sheet.marks[one.athlete]
    jersey, name, written, worn, last = widths
    text = Text(f"{sign(one, mark, is_filled=sheet.is_filled)} ", no_wrap=True)
    text.append(right(clean(one.jersey or MISSING), jersey - 1) + " ", paper.ink.quiet)
    text.append(fit(clean(one.name), name - 1) + " ")
    is_usual = mark.part == "full" and mark.minutes is None and mark.plays is None
    summary = written_words(one, mark, is_touched=one.athlete in sheet.touched)
    text.append(fit(summary, written - 1) + " ", "" if is_usual else paper.ink.strong)
    text.append(fit(worn_words(one, mark), worn))
    if last:
        text.append(fit(last_words(one), last), paper.ink.quiet)
    return text


def sign(one: LogAthlete, mark: Mark, *, is_filled: bool) -> str:
    """Return what saving does: + new, ~ changed, = stands there already, or nothing."""
    if is_written(one, mark, is_filled=is_filled):
        return CHANGED if one.is_recorded else NEW
    return SAME if one.is_recorded else NOTHING


def written_words(one: LogAthlete, mark: Mark, *, is_touched: bool) -> str:
    """Return one's part in glyph and words: `○ out, injury · proposed`."""
    summary = f"{GLYPHS[mark.part]} {', '.join(mark_words(mark))}"
    return f"{summary} · {PROPOSED}" if one.is_because and not is_touched else summary


def worn_words(one: LogAthlete, mark: Mark) -> str:
    """Return the guards in glyph and words: `◆ left shin`, `◇ not worn: left shin`."""
    if not one.guards:
        return "– no guard"
    worn = [guard for guard in one.guards if guard.guard in mark.wears]
    return f"◆ {_listed(worn)}" if worn else f"◇ not worn: {_listed(one.guards)}"


def _listed(guards: Sequence[LogGuard]) -> str:
    return ", ".join(dict.fromkeys(clean(guard.words) for guard in guards))


def last_words(one: LogAthlete) -> str:
    """Return the last part before this session: `out, illness 12 Nov`."""
    if one.last_part is None or one.last_on is None:
        return "nothing yet"
    summary = f"{one.last_part}, {one.last_reason}" if one.last_reason else one.last_part
    return f"{summary} {one.last_on.day} {one.last_on:%b}"


def detail_words(one: LogAthlete, mark: Mark) -> str:
    """Return all that the line has no room for."""
    summary = ", ".join(mark_words(mark))
    parts = [f"{clean(one.name)}: {summary}", f"last time {last_words(one)}"]
    if one.open_area is not None and one.open_on is not None:
        side = "" if one.open_side == "midline" else f"{one.open_side} "
        back = ", took part since" if one.is_back else ""
        since = f"{one.open_on.day} {one.open_on:%b}"
        parts.append(f"open injury: {side}{one.open_area} since {since}{back}")
    lately = [guard for guard in one.guards if guard.was_worn]
    if one.guards:
        parts.append(f"wore last: {_listed(lately) or 'none'}")
    if len(one.guards) > 1:
        parts.append("W chooses among guards")
    if not one.is_listed:
        parts.append("not on the roster that day")
    return " · ".join(parts)


def tally_words(counts: Tally) -> str:
    """Return the counts: `53 full, 2 limited, 5 out; 41 wearing`."""
    summary = f"{counts.full} full, {counts.limited} limited, {counts.out} out; "
    summary += f"{counts.wearing} wearing"
    return summary + (f"; {counts.not_recorded} not recorded" if counts.not_recorded else "")


WEAR = {True: "wear of all recorded", False: "wear not of all", None: "wear of all? not said"}
"""Whether wear is recorded for everybody; `c` changes it."""


def proposed_words(sheet: LogSheet, touched: frozenset[str]) -> str:
    """Return how many lines are proposed by an open injury and not touched; empty for none."""
    many = sum(one.is_because and one.athlete not in touched for one in sheet.athletes)
    return f"{words.plural(many, 'line')} proposed by an open injury" if many else ""
