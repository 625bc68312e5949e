"""The page of the Compare screen, drawn from its answer."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from rich.text import Text

from seasonboard.answers import words
from seasonboard.answers.compare.comparisons import DECLINERS
from seasonboard.answers.compare.hours import RATIOS_STAY, Per, hours_word
from seasonboard.answers.compare.weekly_looks import WHY
from seasonboard.ui.compare.forest import BY_ATHLETE, NAME, ROOMY, Forest, forest, limits
from seasonboard.ui.compare.week_by_week import needed_lines, week_by_week
from seasonboard.ui.layout import page_parts
from seasonboard.ui.layout.blocks import GAP, Block, Paper, paragraph, pictured, title
from seasonboard.ui.layout.columns import in_columns
from seasonboard.ui.layout.format import clean, fit, right
from seasonboard.ui.layout.tables import Head, heading, line

if TYPE_CHECKING:
    from seasonboard.answers.compare.comparisons import Comparison
    from seasonboard.answers.compare.hours import Hours
    from seasonboard.answers.compare.parts import CompareAnswer
    from seasonboard.stats.rates import Rate

_RATE_COLUMNS = (("exposures", 14), ("injuries", 11), ("per 1000", 12), ("", 17))
_HOUR_COLUMNS = (("hours", 14), ("injuries", 11), ("per 1000 h", 12), ("", 17))
_LIMITS = 15
RATE_NAMES = ("rate guarded", "rate bare")
"""The names of the blocks of the rates."""
Columns = Sequence[tuple[str, int]]
_BELIEVE = "limits from the spread between athletes; believe them where they are wider"


def compare_page(answer: "CompareAnswer", paper: Paper) -> Sequence[Block]:
    """Return question, verdict, forest, rates, what was left out, and what to keep in mind."""
    level = words.level_words(answer.summary.scope)
    drawn = forest(answer, level, paper)
    summary, headline = answer.summary, answer.comparisons[0].name
    without = (WHY,) if paper.height >= ROOMY else ()
    return [
        *page_parts.opening(answer.summary, paper, card="verdict", opens="injuries"),
        GAP,
        *pictured([*_forest(answer, drawn, paper), *_watched(answer, drawn, paper)]),
        Block(needed_lines(answer, paper), name="needed", card="needed", opens="athletes"),
        *in_columns(
            (
                lambda half: _rates(answer, level, half),
                lambda half: [] if drawn.by_athlete else _by_athlete(answer, level, half),
                lambda half: _areas(answer, half),
                lambda half: page_parts.doubts(summary, half),
                lambda half: page_parts.left_out(summary, half),
                lambda half: page_parts.caveats(summary, half, card=headline, without=without),
            ),
            paper,
        ),
    ]


def _rates(answer: "CompareAnswer", level: str, paper: Paper) -> list[Block]:
    if answer.per is Per.HOURS:
        guarded, bare = answer.hours
        return [
            GAP,
            Block((_rate_head(_HOUR_COLUMNS, level, paper),)),
            _hourly("guarded", guarded, paper),
            _hourly("bare", bare, paper, paragraph(RATIOS_STAY, paper.width, paper.ink.quiet)),
            *_why_no_rate(answer, paper),
        ]
    return [
        GAP,
        Block((_rate_head(_RATE_COLUMNS, level, paper),)),
        _rate("guarded", answer.guarded, paper),
        _rate("bare", answer.unguarded, paper),
        *_why_no_rate(answer, paper),
    ]


def _forest(answer: "CompareAnswer", drawn: Forest, paper: Paper) -> list[Block]:
    blocks = [Block(drawn.head)]
    blocks += [
        Block(lines, name=c.name, card=c.name, opens=f"strata:{c.name}")
        for c, lines in zip(answer.comparisons, drawn.rows, strict=True)
    ]
    if drawn.by_athlete:
        missing = [
            f"{c.name} has none: {c.clustered.why}" for c in answer.comparisons if c.clustered.why
        ]
        summary = "; ".join([f"{BY_ATHLETE}: {_BELIEVE}", *missing])
        told = paragraph(summary, paper.width, paper.ink.quiet, " " * NAME)
        blocks.append(Block(told, name=BY_ATHLETE, card="clustered", opens="athletes"))
    return blocks


def _watched(answer: "CompareAnswer", drawn: Forest, paper: Paper) -> list[Block]:
    """Return the headline as peek-proof, its way there, and against decliners alone."""
    opens = f"strata:{answer.comparisons[0].name}"
    lines = drawn.anytime_valid
    if paper.height >= ROOMY:
        lines += paragraph(WHY, paper.width, paper.ink.quiet, " " * NAME)
    trace = week_by_week(answer.watched, drawn.axis, paper)
    return [
        Block(lines, name="peek-proof", card="peek-proof", opens=opens),
        Block(trace, name="week by week", card="peek-proof", opens=opens),
        Block(drawn.decliners, name=DECLINERS, card=DECLINERS, opens=f"strata:{DECLINERS}"),
    ]


def _by_athlete(answer: "CompareAnswer", level: str, paper: Paper) -> list[Block]:
    """Return the limits by athlete as a table, where the forest has no room for them."""
    heads = (level, BY_ATHLETE, "athletes")
    head = " " * NAME + "".join(right(text, _LIMITS) for text in heads)
    return [
        title(f"Limits {BY_ATHLETE}", paper),
        Block(paragraph(f"L{_BELIEVE[1:]}.", paper.width, paper.ink.quiet)),
        Block((Text(head, style=paper.ink.quiet),)),
        *(_clustered(comparison, paper) for comparison in answer.comparisons),
    ]


def _clustered(comparison: "Comparison", paper: Paper) -> Block:
    clustered = comparison.clustered
    figures = (limits(comparison.ratio), limits(clustered), words.whole(clustered.athletes))
    name = fit(f" {clean(comparison.name)}", NAME)
    text = Text(name + "".join(right(figure, _LIMITS) for figure in figures))
    why = paragraph(clustered.why, paper.width, paper.ink.quiet, " " * NAME)
    return Block(
        (text, *(why if clustered.why else ())),
        name=f"{BY_ATHLETE} {comparison.name}",
        card="clustered",
        opens=f"strata:{comparison.name}",
    )


def _areas(answer: "CompareAnswer", paper: Paper) -> list[Block]:
    """Return the headline area by area, where several are studied."""
    if not answer.areas:
        return []
    heads = (
        Head("same session", 17, grows=True),
        Head("ratio", 6, is_number=True),
        Head("limits", 15, is_number=True),
        Head("p", 6, is_number=True),
        Head("adjusted p", 10, is_number=True),
        Head("injuries", 9, is_number=True),
    )
    head = heading(heads, paper)
    rows = []
    for each in answer.areas:
        found = each.ratio
        cells = (
            each.area,
            words.ratio(found.rate_ratio),
            limits(found),
            words.number(found.p, digits=3),
            words.number(each.p_adjusted, digits=3),
            f"{found.injuries_guarded} v {found.injuries_unguarded}",
        )
        rows.append(
            Block(
                (line(heads, cells, paper),),
                name=f"area {each.area}",
                card="areas",
                opens=f"strata:{answer.comparisons[0].name}",
                heading=head,
            )
        )
    return [title("Area by area", paper), Block((head,)), *rows]


def _rate_head(columns: Columns, level: str, paper: Paper) -> Text:
    heads = [(head or level, cells) for head, cells in columns]
    text = " " * 10 + "".join(right(head, cells) for head, cells in heads)
    return Text(text, style=paper.ink.quiet)


def _rate(name: str, rate: "Rate", paper: Paper) -> Block:
    limits = (
        rate.why or "no limits yet"
        if rate.low is None or rate.high is None
        else f"{words.number(rate.low)}–{words.number(rate.high)}"
    )
    figures = (
        words.whole(rate.exposures),
        words.whole(rate.injuries),
        words.number(rate.rate),
        limits,
    )
    text = _group(name, paper)
    for figure, (_, cells) in zip(figures, _RATE_COLUMNS, strict=True):
        text.append(right(figure, cells), "not bold")
    return Block((text,), name=f"rate {name}", card="rate", opens="athletes")


def _hourly(name: str, hours: "Hours", paper: Paper, below: tuple[Text, ...] = ()) -> Block:
    rate, text = hours.rate, _group(name, paper)
    if rate.rate is None:
        text.append(hours.why, "not bold")
    else:
        figures = (
            hours_word(rate.hours),
            words.whole(rate.injuries),
            words.number(rate.rate),
            f"{words.number(rate.low)}–{words.number(rate.high)}",
        )
        for figure, (_, cells) in zip(figures, _HOUR_COLUMNS, strict=True):
            text.append(right(figure, cells), "not bold")
    lines = (text, *below)
    return Block(lines, name=f"rate {name}", card="rate per hour", opens="athletes")


def _group(name: str, paper: Paper) -> Text:
    return Text(fit(f" {name}", 10), style=paper.ink.group(guarded=name == "guarded"))


def _why_no_rate(answer: "CompareAnswer", paper: Paper) -> list[Block]:
    """Say what is missing before anything can be compared."""
    if answer.guarded.exposures or answer.unguarded.exposures:
        return []
    return [title("Attendance makes exposures: none is recorded in this scope.", paper)]
