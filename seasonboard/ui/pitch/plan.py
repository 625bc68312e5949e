"""The plan behind a pitch as parts of a page: prints, turnaround, cost, swings and inputs."""

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from seasonboard.answers import words
from seasonboard.answers.pitch.inputs import (
    GUARDS_EACH,
    LATER,
    PRINT_HOURS,
    REMADE,
    SEASON,
    TAKES,
    WORN_IN,
)
from seasonboard.answers.pitch.text import print_figures
from seasonboard.answers.pitch.words import count, input_value, range_80, range_95, value_words
from seasonboard.ui.layout.blocks import Block, Paper, item, paragraph, title
from seasonboard.ui.layout.tables import Head, heading, line

if TYPE_CHECKING:
    from seasonboard.answers.pitch.parts import Input, PitchAnswer
    from seasonboard.stats.season_ahead import Spread

PRINTS = "pitch/prints ahead"
_BEHIND: Mapping[str, tuple[str, str]] = {
    TAKES: ("pitch/guarded share", "steps"),
    WORN_IN: ("pitch/guarded share", "steps"),
    GUARDS_EACH: ("pitch/prints an athlete", "orders"),
    REMADE: (PRINTS, "redone"),
    LATER: (PRINTS, "redone"),
    PRINT_HOURS: ("pitch/prints an athlete", "orders"),
    SEASON: ("pitch/prospect", "prospect"),
}
"""Of each input its method card, and the rows it was counted from."""


def spreads(
    named: str, figures: "Sequence[tuple[str, Spread]]", paper: Paper, *, card: str, opens: str
) -> list[Block]:
    """Return figures with their middle and ranges as a table; nothing where there are none."""
    if not figures:
        return []
    heads = (
        Head("", 31, grows=True),
        Head("middle", 7, is_number=True),
        Head("80 % of seasons", 15, is_number=True),
        Head("95 % of seasons", 15, is_number=True),
    )
    head = heading(heads, paper)
    rows = [
        Block(
            (
                line(
                    heads,
                    (name, count(found.median), range_80(found), range_95(found)),
                    paper,
                ),
            ),
            name=f"figure {name}",
            card=card,
            opens=opens,
            heading=head,
        )
        for name, found in figures
    ]
    return [title(named, paper), Block((head,)), *rows]


def prints(answer: "PitchAnswer", paper: Paper) -> list[Block]:
    """Return how many prints it takes, what makes them, and how long a guard would take."""
    figures = [(name, found) for name, found in print_figures(answer) if found is not None]
    table = spreads("Prints", figures, paper, card=PRINTS, opens="orders")
    told = item("made by", _made_by(answer), paper)
    takes = item("takes  ", _takes(answer), paper)
    return [
        *table,
        Block(told, name="made by", card=PRINTS, opens="orders"),
        Block(takes, name="takes", card=PRINTS, opens="orders"),
    ]


def _made_by(answer: "PitchAnswer") -> str:
    plan = answer.plan
    if plan.week_capacity is None:
        return "nothing limits the prints of a week; i says how they are made"
    week = words.number(plan.week_capacity, digits=1).removesuffix(".0")
    return (
        f"{plan.made_by}: {week} a week; {words.plural(plan.needed_per_week, 'print')} a week "
        "would hold the busiest week of 19 in 20 seasons"
    )


def _takes(answer: "PitchAnswer") -> str:
    plan = answer.plan
    wait, days = plan.ahead.wait_hours, plan.ahead.turnaround_days
    told = []
    if days is not None:
        told.append(
            f"from requested to fitted {days.median:.0f} days in the middle, 80 % within "
            f"{days.p80:.0f}, 95 % within {days.p95:.0f}"
        )
    if wait is not None:
        told.append(
            f"of it a first guard waits {wait.median / 24:.0f} days for its print, 80 % at most "
            f"{wait.p80 / 24:.0f}, 95 % at most {wait.p95 / 24:.0f}"
        )
    return "; ".join(told) or f"not known: {plan.turnaround_why or 'no own record'}"


def cost(answer: "PitchAnswer", paper: Paper) -> list[Block]:
    """Return what the guards cost, and a game kept."""
    found = answer.cost
    if found.price is None or found.total is None:
        text = f"not known: {found.why}; i takes a price"
    else:
        text = (
            f"at {found.price:g} a guard, remakes free: {count(found.total.median)} in all (95 %: "
            f"{range_95(found.total)}); a game kept costs "
        )
        each = found.per_game_kept
        text += (
            f"{count(each.median)} (80 %: {range_80(each)}; 95 %: {range_95(each)})"
            if each is not None
            else f"what is not known, since {found.why}"
        )
    return [Block(item("cost   ", text, paper), name="cost", card="pitch/cost", opens="orders")]


def swings(answer: "PitchAnswer", paper: Paper) -> list[Block]:
    """Return which input would change the games kept most, and by how much."""
    sentence = Block(
        paragraph(answer.swing_sentence, paper.width),
        name="swing",
        card="pitch/sensitivity",
        opens="injuries",
    )
    shown = [title("What would change it most", paper), sentence]
    if not answer.swings:
        return shown
    units = {each.name: each.unit for each in answer.inputs}
    heads = (
        Head("one at a time", 19, grows=True),
        Head("low end", 8, is_number=True),
        Head("high end", 8, is_number=True),
        Head("games kept at low", 17, is_number=True),
        Head("at high", 8, is_number=True),
    )
    head = heading(heads, paper)
    rows = []
    for swing in answer.swings:
        unit = units.get(swing.input, "")
        cells = (
            swing.input,
            value_words(swing.low, unit),
            value_words(swing.high, unit),
            words.number(swing.kept_at_low, digits=1),
            words.number(swing.kept_at_high, digits=1),
        )
        rows.append(
            Block(
                (line(heads, cells, paper),),
                name=f"swing {swing.input}",
                card="pitch/sensitivity",
                opens=_BEHIND.get(swing.input, ("", "injuries"))[1],
                heading=head,
            )
        )
    return [*shown, Block((head,)), *rows]


def inputs(answer: "PitchAnswer", paper: Paper) -> list[Block]:
    """Return what the plan rests on, and where each of it is from."""
    rows = []
    for each in answer.inputs:
        card, opens = _BEHIND.get(each.name, ("pitch/prospect", "prospect"))
        text = f"{_valued(each)}; {each.why or each.source}"
        rows.append(
            Block(
                item(f"{each.name:<21}", text, paper),
                name=f"input {each.name}",
                card=card,
                opens=opens,
            )
        )
    return [title("What the plan rests on (i changes it)", paper), *rows]


def _valued(found: "Input") -> str:
    text = input_value(found)
    if found.low is not None and found.high is not None and found.low != found.high:
        low, high = value_words(found.low, found.unit), value_words(found.high, found.unit)
        text += f" ({low} to {high})"
    is_told = found.value is None or found.unit in found.name
    return text if is_told else f"{text} {found.unit}"
