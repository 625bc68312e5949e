"""The page of the Compare screen, drawn from its answer."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from rich.text import Text

from seasonboard.answers import words
from seasonboard.answers.compare.comparisons import DECLINERS
from seasonboard.answers.compare.hours import RATIOS_STAY, Per
from seasonboard.answers.compare.report import AREAS, COMPARISONS, RATES, needed_words
from seasonboard.answers.compare.weekly_looks import WHY
from seasonboard.ui.compare.forest import BY_ATHLETE, NAME, ROOMY, Forest, forest, narrow_interval
from seasonboard.ui.compare.week_by_week import week_by_week
from seasonboard.ui.layout import page_parts
from seasonboard.ui.layout.blocks import GAP, Block, Paper, paragraph, pictured, title
from seasonboard.ui.layout.columns import in_columns
from seasonboard.ui.layout.format import fit
from seasonboard.ui.layout.opens import Opens, What
from seasonboard.ui.layout.tables import Head, column, heading, row_line

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
    return [
        *page_parts.opening(answer.summary, paper, card="verdict", opens=Opens(What.INJURIES)),
        GAP,
        *pictured([*_forest(answer, drawn, paper), *_watched(answer, drawn, paper)]),
        Block(
            paragraph(needed_words(answer), paper.width),
            name="needed",
            card="needed",
            opens=Opens(What.ATHLETES),
        ),
        *in_columns(
            (
                lambda half: _rates(answer, half),
                lambda half: [] if drawn.by_athlete else _by_athlete(answer, level, half),
                lambda half: _areas(answer, level, half),
                lambda half: page_parts.doubts(summary, half),
                lambda half: page_parts.left_out(summary, half),
                lambda half: page_parts.caveats(summary, half, card=headline, without=without),
            ),
            paper,
        ),
    ]


def _rates(answer: "CompareAnswer", paper: Paper) -> list[Block]:
    """Return the rates per exposures or per hours, and what is missing before there is any."""
    is_hourly = answer.per is Per.HOURS
    names, card = (_HOURLY, "rate per hour") if is_hourly else (_RATE, "rate")
    heads = [column(RATES.field(name), width, answer) for name, width in names.items()]
    lines = [_rate(group, heads, paper, is_hourly=is_hourly) for group in answer.groups]
    below = paragraph(RATIOS_STAY, paper.width, paper.ink.quiet) if is_hourly else ()
    return [
        GAP,
        Block((heading(heads, paper),)),
        *(
            Block((line, *more), name=name, card=card, opens=Opens(What.ATHLETES))
            for name, line, more in zip(RATE_NAMES, lines, ((), below), strict=True)
        ),
        *_why_no_rate(answer, paper),
    ]


def _rate(group: "GroupRates", heads: Sequence[Head], paper: Paper, *, is_hourly: bool) -> Text:
    """Return one group's rate in its colour; without minutes, in words that there is none."""
    if is_hourly and group.hours.why:
        text = Text(fit(f" {group.name}", _GROUP) + group.hours.why)
    else:
        text = row_line(heads, group, paper)
    text.stylize(paper.ink.group(guarded=group.name == "guarded"))
    text.stylize("not bold", _GROUP)
    return text


def _forest(answer: "CompareAnswer", drawn: Forest, paper: Paper) -> list[Block]:
    blocks = [Block(drawn.head)]
    blocks += [
        Block(lines, name=c.name, card=c.name, opens=Opens(What.STRATA, c.name))
        for c, lines in zip(answer.comparisons, drawn.rows, strict=True)
    ]
    if drawn.by_athlete:
        missing = [
            f"{c.name} has none: {c.clustered.why}" for c in answer.comparisons if c.clustered.why
        ]
        summary = "; ".join([f"{BY_ATHLETE}: {_BELIEVE}", *missing])
        lines = paragraph(summary, paper.width, paper.ink.quiet, " " * NAME)
        blocks.append(Block(lines, name=BY_ATHLETE, card="clustered", opens=Opens(What.ATHLETES)))
    return blocks


def _watched(answer: "CompareAnswer", drawn: Forest, paper: Paper) -> list[Block]:
    """Return the headline as peek-proof, its way there, and against decliners alone."""
    opens = Opens(What.STRATA, answer.comparisons[0].name)
    lines = drawn.anytime_valid
    if paper.height >= ROOMY:
        lines += paragraph(WHY, paper.width, paper.ink.quiet, " " * NAME)
    trace = week_by_week(answer.watched, drawn.axis, paper)
    return [
        Block(lines, name="peek-proof", card="peek-proof", opens=opens),
        Block(trace, name="week by week", card="peek-proof", opens=opens),
        Block(drawn.decliners, name=DECLINERS, card=DECLINERS, opens=Opens(What.STRATA, DECLINERS)),
    ]


def _by_athlete(answer: "CompareAnswer", level: str, paper: Paper) -> list[Block]:
    """Return the limits by athlete as a table, where the forest has no room for them."""
    heads = (
        Head("", NAME - 2, cell=lambda one: one.name),
        Head(level, 15, is_number=True, cell=lambda one: narrow_interval(one.ratio)),
        Head(BY_ATHLETE, 14, is_number=True, cell=lambda one: narrow_interval(one.clustered)),
        column(COMPARISONS.field("clustered.athletes"), 14),
    )
    return [
        title(f"Limits {BY_ATHLETE}", paper),
        Block(paragraph(f"L{_BELIEVE[1:]}.", paper.width, paper.ink.quiet)),
        Block((heading(heads, paper),)),
        *(_clustered(comparison, heads, paper) for comparison in answer.comparisons),
    ]


def _clustered(comparison: "Comparison", heads: Sequence[Head], paper: Paper) -> Block:
    why = comparison.clustered.why
    note = paragraph(why, paper.width, paper.ink.quiet, " " * NAME) if why else ()
    return Block(
        (row_line(heads, comparison, paper), *note),
        name=f"{BY_ATHLETE} {comparison.name}",
        card="clustered",
        opens=Opens(What.STRATA, comparison.name),
    )


def _areas(answer: "CompareAnswer", level: str, paper: Paper) -> list[Block]:
    """Return the headline area by area, where several are studied."""
    if not answer.areas:
        return []
    read = AREAS.field
    heads = (
        column(read("area"), 17, heading="same session", grows=True),
        column(read("rate_ratio"), 6),
        Head(level, 15, is_number=True, cell=lambda area: narrow_interval(area.ratio)),
        column(read("p"), 6),
        column(read("p_adjusted"), 10, heading="adjusted p"),
        Head("injuries", 9, is_number=True, cell=read("hurt").read),
    )
    head = heading(heads, paper)
    rows = [
        Block(
            (row_line(heads, area, paper),),
            name=f"area {area.area}",
            card="areas",
            opens=Opens(What.STRATA, answer.comparisons[0].name),
            heading=head,
        )
        for area in answer.areas
    ]
    return [title("Area by area", paper), Block((head,)), *rows]


def _why_no_rate(answer: "CompareAnswer", paper: Paper) -> list[Block]:
    """Say what is missing before anything can be compared."""
    if answer.guarded.exposures or answer.unguarded.exposures:
        return []
    return [title("Attendance makes exposures: none is recorded in this scope.", paper)]
