"""The page of the Games screen, drawn from its answer."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from rich.text import Text

from seasonboard.answers import words
from seasonboard.ui.games.curves import at_risk_trend, misleading_picture, survival_picture
from seasonboard.ui.games.figures import numbers
from seasonboard.ui.games.follow_up_ends import endings, follow_up_ends
from seasonboard.ui.layout import page_parts
from seasonboard.ui.layout.blocks import GAP, Block, Paper, paragraph, title
from seasonboard.ui.layout.columns import in_columns
from seasonboard.ui.layout.format import right

if TYPE_CHECKING:
    from seasonboard.answers.games.parts import GamesAnswer
    from seasonboard.stats.survival import CurvePoint

_COLUMNS = (("at risk", 8), ("hurt", 6), ("in", 6), ("left", 6), ("uninjured", 10))
_TICK = 6
LEAST_PICTURE, MOST_PICTURE = 12, 28
SMALL_PICTURE = 12
WRONG = "Misleading: ever guarded against never guarded"
WRONG_NAME = "misleading tally"
WHY_WRONG = (
    "It counts the games before a guard came as guarded ones; a site must stay uninjured until "
    "then to get into that curve, so it seems safe while it waits. Not to be quoted."
)
ROOMY = Paper(96, 28)
"""Paper of this size and more gets a second picture."""


def games_page(
    answer: "GamesAnswer", paper: Paper, *, is_same_mix: bool = False
) -> Sequence[Block]:
    """Return question, answer, options, curves, numbers, ticks, and what to keep in mind.

    Args:
        answer: What is drawn.
        paper: What to draw on.
        is_same_mix: The curves are to be those at one mix of athletes, where there are any.
    """
    is_mixed = is_same_mix and answer.one_mix is not None and not answer.one_mix.why
    opening = page_parts.opening(answer.summary, paper, card="restricted mean", opens="injuries")
    options = Block(options_lines(answer, paper, is_mixed=is_mixed))
    used = sum(len(block.lines) for block in (*opening, options))
    height = min(MOST_PICTURE, max(LEAST_PICTURE, paper.height - used))
    picture = survival_picture(answer, Paper(paper.width, height, paper.ink), is_same_mix=is_mixed)
    return [
        *opening,
        options,
        Block(
            tuple(picture),
            name="curves",
            card="one mix" if is_mixed else "curve",
            opens="injuries",
            is_picture=True,
        ),
        *_misleading(answer, paper),
        *numbers(answer, paper),
        *in_columns(
            (
                lambda half: _at_risk(answer, half),
                lambda half: follow_up_ends(answer, half),
                lambda half: _ticks(answer, half),
                lambda half: endings(answer, half),
                lambda half: page_parts.doubts(answer.summary, half),
                lambda half: page_parts.left_out(answer.summary, half),
                lambda half: page_parts.caveats(answer.summary, half, card="curve"),
            ),
            paper,
        ),
    ]


def options_lines(
    answer: "GamesAnswer", paper: Paper, *, is_mixed: bool = False
) -> tuple[Text, ...]:
    """Return how it was asked, each with the key that changes it."""
    options = answer.options
    horizon = "none yet" if answer.horizon is None else str(answer.horizon)
    if options.horizon is None and answer.horizon is not None and paper.width >= ROOMY.width:
        horizon += " (both still large)"
    summary = (
        ("k", "clock", options.clock.value.replace("-", " ")),
        ("n", "at risk", f"{words.whole(options.min_at_risk)}+"),
        ("h", "horizon", horizon),
        ("a", "same mix" if is_mixed else "as played", ""),
        ("w", "wrong tally", "shown" if options.naive else "off"),
    )
    lines = [Text(" ", style=paper.ink.quiet)]
    for key, name, value in summary:
        part = Text.assemble((key, "bold"), f" {name} {value}".rstrip())
        has_text = lines[-1].cell_len > 1
        if has_text and lines[-1].cell_len + part.cell_len + 3 > paper.width:
            lines.append(Text(" ", style=paper.ink.quiet))
        elif has_text:
            lines[-1].append(" · ")
        lines[-1].append_text(part)
    return tuple(lines)


def _misleading(answer: "GamesAnswer", paper: Paper) -> list[Block]:
    """Return the misleading tally, called that and told why, when it was asked for."""
    if answer.ever_never is None:
        return []
    lines = (
        Text(""),
        Text(f" {WRONG}", style=paper.ink.strong),
        *paragraph(WHY_WRONG, paper.width, paper.ink.quiet),
        *misleading_picture(answer, Paper(paper.width, SMALL_PICTURE, paper.ink)),
    )
    return [Block(lines, name=WRONG_NAME, card="ever never", opens="injuries")]


def _at_risk(answer: "GamesAnswer", paper: Paper) -> list[Block]:
    """Return the course of the numbers at risk, where there is room for a second picture."""
    if paper.width < ROOMY.width or paper.height < ROOMY.height:
        return []
    lines = at_risk_trend(answer, paper)
    return (
        [GAP, Block(tuple(lines), name="at risk", card="curve", opens="injuries")] if lines else []
    )


def _ticks(answer: "GamesAnswer", paper: Paper) -> list[Block]:
    guarded, unguarded = (
        {point.tick: point for point in group.compared.points} for group in answer.groups
    )
    clock = "session" if answer.options.clock.value == "sessions" else "game"
    head = Text(right(clock, _TICK), style=paper.ink.quiet)
    groups = Text(" " * _TICK)
    wide = sum(cells for _, cells in _COLUMNS)
    for name in ("guarded", "bare"):
        groups.append(right(f"── {name}", wide), paper.ink.group(guarded=name == "guarded"))
        for heading, cells in _COLUMNS:
            head.append(right(heading, cells))
    rows = []
    for tick in sorted({*guarded, *unguarded}):
        text = Text(right(str(tick), _TICK))
        for is_guarded, points in ((True, guarded), (False, unguarded)):
            text.append(_point(points.get(tick)), paper.ink.group(guarded=is_guarded))
        rows.append(
            Block((text,), name=f"tick {tick}", card="curve", opens=f"tick:{tick}", heading=head)
        )
    if not rows:
        return []
    return [title(f"{clock.capitalize()} by {clock}", paper), Block((groups, head)), *rows]


def _point(point: "CurvePoint | None") -> str:
    if point is None:
        return "".join(right("–", cells) for _, cells in _COLUMNS)
    share = "–" if point.survival is None else f"{words.number(point.survival * 100, digits=1)} %"
    counts = (point.at_risk, point.injuries, point.entered, point.left)
    figures = (*(words.whole(count) for count in counts), share)
    pairs = zip(figures, _COLUMNS, strict=True)
    return "".join(right(figure, cells) for figure, (_, cells) in pairs)
