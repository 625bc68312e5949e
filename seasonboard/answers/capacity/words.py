"""Capacity in sentences: what waits, what an order costs, what is to be agreed on."""

from datetime import datetime

from seasonboard import terms
from seasonboard.answers import words
from seasonboard.answers.capacity.levers import Lever
from seasonboard.answers.capacity.parts import (
    DAYS_AHEAD,
    CapacityAnswer,
    GameAhead,
    OrderCost,
    PrintLine,
    QueuedPrint,
)
from seasonboard.answers.remakes.parts import RemakesAnswer


def moment(at: datetime | None) -> str:
    """Return an instant as a person says it: `Tue 12 Jan 14:00`."""
    return "–" if at is None else f"{at:%a} {at.day} {at:%b %H:%M}"


def guard_words(one: QueuedPrint) -> str:
    """Return what is to be printed: `shin left`, `chest`."""
    return one.kind if one.side == "midline" else f"{one.kind} {one.side}"


def room_words(line: PrintLine) -> str:
    """Return what prints for a department: `10 a week`, `1 printer, 84 hours a week`."""
    if line.plan == "weekly allotment":
        return (
            f"{line.prints_per_week} a week" if line.prints_per_week is not None else "no allotment"
        )
    if line.plan is None:
        return "no plan recorded"
    if line.weekly_hours is None:
        return "no printer is listed or named: one that runs all week is assumed"
    return f"{words.plural(line.printers, 'printer')}, {line.weekly_hours:g} hours a week"


def line_sentence(line: PrintLine) -> str:
    """Return the queue of a department in sentences."""
    text = f"{line.name} ({room_words(line)}): {words.plural(line.queue, 'print')} waiting"
    if line.planned is None or line.asked is None:
        return f"{text}; how many miss a game cannot be told, {line.why}."
    if line.why:
        return f"{text}; {line.why}."
    if not any(one.print_by for one in line.in_queue):
        return f"{text}; no game of theirs is recorded ahead, so none of them can be late for one."
    text += f"; {_miss_words(line.planned, line.asked)}."
    if line.planned.bare != line.asked.bare:
        text += (
            f" Games played bare until then: {words.whole(line.planned.bare)} in the order below, "
            f"{words.whole(line.asked.bare)} as asked for."
        )
    if line.draw_costs:
        text += f" Keeping the draw costs {words.whole(line.draw_costs)} of them."
    return text


def _miss_words(kept: OrderCost, asked: OrderCost) -> str:
    if kept.missed == asked.missed:
        none = "none" if not kept.missed else words.whole(kept.missed)
        return f"{none} would miss their next game in either order"
    return (
        f"{words.whole(kept.missed)} would miss their next game in the order below, "
        f"{words.whole(asked.missed)} as asked for"
    )


def phone_note(remade: RemakesAnswer) -> str:
    """Return how often guards were remade by how they were scanned."""
    told = [
        f"{words.percent(group.within.value)} of {words.whole(group.fitted)} by {group.group}"
        for group in remade.groups
        if group.group in terms.SCAN_METHODS and group.within.value is not None
    ]
    return f"remade within 30 days: {', '.join(told)}" if told else ""


def step_words(lever: Lever) -> str:
    """Return what is to be done until when: `print it by Tue 12 Jan 14:00`."""
    return f"{lever.step} by {moment(lever.by)}"


def ask_words(game: GameAhead) -> str:
    """Return until when to ask: `Tue 12 Jan`, or why no day is told."""
    day = game.ask_by
    return game.why if day is None else f"{day:%a} {day.day} {day:%b}"


def games_lines(answer: CapacityAnswer) -> str:
    """Return how many games it is too late for, in a sentence."""
    if not answer.games:
        return f"No game is recorded in the next {DAYS_AHEAD} days, so there is no last day to ask."
    over = sum(game.is_over for game in answer.games)
    games = words.plural(len(answer.games), "game")
    return (
        f"{games} in the next {DAYS_AHEAD} days; for {words.whole(over)} of them a guard asked for "
        "now has a chance below 80 %."
    )


def still_in_time(answer: CapacityAnswer) -> list[GameAhead]:
    """Return the first game of each team for which there is still time to ask."""
    first: dict[str, GameAhead] = {}
    for game in answer.games:
        if not game.is_over:
            first.setdefault(game.team, game)
    return list(first.values())
