"""The page of the Compare screen, drawn from its answer."""

from collections.abc import Sequence
from functools import partial
from typing import TYPE_CHECKING

from rich.text import Text

from seasonboard.answers import words
from seasonboard.answers.compare.comparisons import DRAWN_TURNS
from seasonboard.answers.compare.control_sites import (
    CONTROL_ROWS,
    CONTROL_SITES,
    NEIGHBOURING_SITES,
)
from seasonboard.answers.compare.drawn_turns import turns_sentences
from seasonboard.answers.compare.hours import RATIOS_STAY, Per
from seasonboard.answers.compare.recording_checks import ATTENDANCE, WEAR
from seasonboard.answers.compare.report import AREAS, COMPARISONS, RATES, needed_words
from seasonboard.answers.compare.weekly_looks import WHY
from seasonboard.ui.compare.burden_table import burden_blocks
from seasonboard.ui.compare.forest import BY_ATHLETE, NAME, ROOMY, Forest, forest, narrow_interval
from seasonboard.ui.compare.week_by_week import week_by_week
from seasonboard.ui.layout import page_parts
from seasonboard.ui.layout.blocks import (
    GAP,
    INJURIES,
    Block,
    Opens,
    Paper,
    What,
    note,
    paragraph,
    pictured,
    title,
)
from seasonboard.ui.layout.columns import in_columns
from seasonboard.ui.layout.format import fit
from seasonboard.ui.layout.tables import Head, column, columns, table_blocks

if TYPE_CHECKING:
    from seasonboard.answers.compare.comparisons import Comparison
    from seasonboard.answers.compare.parts import CompareAnswer, GroupRates

_GROUP = 10
_RATE = {"group": _GROUP - 2, "exposures": 14, "injuries": 10, "rate": 11, "interval": 16}
_HOURLY = {
    "group": _GROUP - 2,
    "hours": 14,
    "injuries_in_hours": 10,
    "rate_per_1000_hours": 11,
    "interval_hours": 16,
}
"""Columns of the rates, and their cells across."""
RATE_NAMES = ("rate guarded", "rate bare")
"""The names of the blocks of the rates."""
_BELIEVE = "limits from the spread between athletes; believe them where they are wider"


def compare_page(answer: "CompareAnswer", paper: Paper) -> Sequence[Block]:
    """Return question, verdict, forest, rates, what was left out, and what to keep in mind."""
    level = words.level_words(answer.summary.scope)
    drawn = forest(answer, level, paper)
    summary, headline = answer.summary, answer.comparisons[0].name
    without = (WHY,) if paper.height >= ROOMY else ()
    needed = paragraph(needed_words(answer), paper.width)
    sections = (
        partial(_rates, answer),
        lambda half: [] if drawn.by_athlete else _by_athlete(answer, level, half),
        partial(_areas, answer, level),
        partial(burden_blocks, answer),
        partial(page_parts.doubts, summary),
        partial(page_parts.left_out, summary, "left out", INJURIES),
        partial(page_parts.caveats, summary, headline, without=without),
    )
    return [
        *page_parts.opening(summary, paper, "verdict", INJURIES),
        GAP,
        *pictured([*_forest(answer, drawn, paper), *_watched(answer, drawn, paper)]),
        Block(needed, "needed", "needed", Opens(What.ATHLETES)),
        *_records(answer, paper),
        *in_columns(sections, paper),
    ]


def _rates(answer: "CompareAnswer", paper: Paper) -> list[Block]:
    """Return the rates per exposures or per hours, and what is missing before there is any."""
    is_hourly = answer.per is Per.HOURS
    names, card = (_HOURLY, "rate per hour") if is_hourly else (_RATE, "rate")
    heads = columns(RATES, answer, **names)

    def lines(group: "GroupRates", line: Text) -> list[Text]:
        """Return a group's rate in its colour; without minutes, in words that there is none."""
        is_guarded = group.name == "guarded"
        if is_hourly and group.hours.why:
            line = Text(fit(f" {group.name}", _GROUP) + group.hours.why)
        line.stylize(paper.ink.group(guarded=is_guarded))
        line.stylize("not bold", _GROUP)
        return [line, *(note(RATIOS_STAY, paper) if is_hourly and not is_guarded else ())]

    def stop(group: "GroupRates") -> tuple[str, str, Opens]:
        return f"rate {group.name}", card, Opens(What.ATHLETES)

    blocks = [GAP, *table_blocks(heads, answer.groups, paper, stop, lines=lines, stays=False)]
    if not (answer.guarded.exposures or answer.unguarded.exposures):
        blocks.append(title("Attendance makes exposures: none is recorded in this scope.", paper))
    return blocks


def _forest(answer: "CompareAnswer", drawn: Forest, paper: Paper) -> list[Block]:
    blocks = [Block(drawn.head)]
    blocks += [
        Block(lines, c.name, c.name, Opens(What.STRATA, c.name))
        for c, lines in zip(answer.comparisons, drawn.rows, strict=True)
    ]
    if drawn.by_athlete:
        missing = [
            f"{c.name} has none: {c.clustered.why}" for c in answer.comparisons if c.clustered.why
        ]
        lines = note("; ".join([f"{BY_ATHLETE}: {_BELIEVE}", *missing]), paper, " " * NAME)
        blocks.append(Block(lines, BY_ATHLETE, "clustered", Opens(What.ATHLETES)))
    return blocks


def _watched(answer: "CompareAnswer", drawn: Forest, paper: Paper) -> list[Block]:
    """Return the headline as peek-proof, its way there, and against decliners alone."""
    opens = Opens(What.STRATA, answer.comparisons[0].name)
    lines = drawn.anytime_valid
    if paper.height >= ROOMY:
        lines += note(WHY, paper, " " * NAME)
    trace = week_by_week(answer.watched, drawn.axis, paper)
    return [
        Block(lines, "peek-proof", "peek-proof", opens),
        Block(trace, "week by week", "peek-proof", opens),
        *(Block(lines, c.name, c.name, Opens(What.STRATA, c.name)) for c, lines in drawn.apart),
        *_turns(answer, paper),
        *(
            Block(lines, name, name, Opens(What.TABLE, CONTROL_ROWS.name))
            for name, lines in zip((CONTROL_SITES, NEIGHBOURING_SITES), drawn.controls, strict=True)
        ),
    ]


def _turns(answer: "CompareAnswer", paper: Paper) -> list[Block]:
    """Return what drawn turns show in words, what is still missing first."""
    if answer.drawn_turns is None:
        return []
    lines = note(" ".join(turns_sentences(answer.drawn_turns)), paper, " " * NAME)
    return [Block(lines, "turns", DRAWN_TURNS, Opens(What.STRATA, DRAWN_TURNS))]


def _records(answer: "CompareAnswer", paper: Paper) -> list[Block]:
    """Return whether attendance and wear are recorded alike, and how far a claim goes."""
    texts = (*answer.recording.lines, answer.claim.line)
    cards = (ATTENDANCE, WEAR, "claims")
    return [
        Block(paragraph(text, paper.width), card, card, Opens(What.ATHLETES))
        for text, card in zip(texts, cards, strict=True)
    ]


def _by_athlete(answer: "CompareAnswer", level: str, paper: Paper) -> list[Block]:
    """Return the limits by athlete as a table, where the forest has no room for them."""
    heads = (
        Head("", NAME - 2, cell=lambda one: one.name),
        Head(level, 15, is_number=True, cell=lambda one: narrow_interval(one.ratio)),
        Head(BY_ATHLETE, 14, is_number=True, cell=lambda one: narrow_interval(one.clustered)),
        column(COMPARISONS.field("clustered.athletes"), 14),
    )

    def stop(one: "Comparison") -> tuple[str, str, Opens]:
        return f"{BY_ATHLETE} {one.name}", "clustered", Opens(What.STRATA, one.name)

    def lines(one: "Comparison", line: Text) -> list[Text]:
        why = one.clustered.why
        return [line, *(note(why, paper, " " * NAME) if why else ())]

    return [
        title(f"Limits {BY_ATHLETE}", paper),
        Block(note(f"L{_BELIEVE[1:]}.", paper)),
        *table_blocks(heads, answer.comparisons, paper, stop, lines=lines, stays=False),
    ]


def _areas(answer: "CompareAnswer", level: str, paper: Paper) -> list[Block]:
    """Return the headline area by area, where several are studied."""
    read = AREAS.field
    heads = (
        column(read("area"), 17, heading="same session", grows=True),
        column(read("rate_ratio"), 6),
        Head(level, 15, is_number=True, cell=lambda area: narrow_interval(area.ratio)),
        column(read("p"), 6),
        column(read("p_adjusted"), 10, heading="adjusted p"),
        Head("injuries", 9, is_number=True, cell=read("hurt").read),
    )
    opens = Opens(What.STRATA, answer.comparisons[0].name)
    table = table_blocks(
        heads, answer.areas, paper, lambda one: (f"area {one.area}", "areas", opens)
    )
    return [title("Area by area", paper), *table] if table else []
