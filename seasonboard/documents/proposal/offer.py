"""The first page of an offer: what it is, what both sides give, and the two plans."""

from collections.abc import Iterator

from seasonboard.answers import words
from seasonboard.answers.pitch.inputs import PRINT_HOURS
from seasonboard.answers.pitch.lines import side_by_side
from seasonboard.answers.pitch.options import PrintWay
from seasonboard.answers.pitch.parts import PitchAnswer, PlanAhead
from seasonboard.answers.pitch.words import count
from seasonboard.documents.model import Column, Paragraph, Part, Points, Section, Table
from seasonboard.documents.proposal.offered import OPEN, Offered, addressed, sentence
from seasonboard.releases.block import Block
from seasonboard.releases.work import ORDERS, READY

_BUSIEST, _READY = "busiest week asks for", "ready for the next game"
_ROWS = (
    ("made by", "what makes them"),
    ("can make", "what it can make"),
    (_BUSIEST, _BUSIEST),
    ("queue", "what that does"),
    ("requested to fitted there", "days so far"),
    (_READY, _READY),
    ("expected here", "days to expect"),
    ("fees", "fees"),
    ("total of the season", "total of the season"),
)
"""What the two plans are compared in: its name on the board, and here."""
_HEADS = {
    PrintWay.PRINTER: "a printer in your building",
    PrintWay.WEEKLY: "made at our workshop, a weekly maximum",
}


def offer_sections(offered: Offered) -> tuple[Section, ...]:
    """Return the sections of the first page, in their order."""
    return (
        Section("What a guard is, and how it is made", (_made(offered.pitch),)),
        Section("What you get", (Points(tuple(_given(offered))),)),
        Section("What we ask of you", (Points(tuple(_asked(offered))),)),
        Section("Two ways to have them made", _plans(offered)),
    )


def _made(pitch: PitchAnswer) -> Points:
    hours = pitch.input(PRINT_HOURS).value
    takes = "" if hours is None else f", which takes about {words.plural(round(hours), 'hour')}"
    return Points((
        f"Scanned: the athlete's {words.sites_word(pitch.sites)} are scanned, each side by itself.",
        "Shaped: the guard is drawn on that scan, so that it lies on all of the skin it covers.",
        f"Printed: it is printed in one piece{takes}, and finished by hand.",
        "Fitted: it is tried on the athlete, and made again where it does not fit.",
    ))  # fmt: skip


def _given(offered: Offered) -> Iterator[str]:
    pitch, asked = offered.pitch, offered.options
    guards = words.plural(round(pitch.prints.first.mean), "guard")
    yield (
        f"Guards: about {guards} for {words.plural(len(pitch.planned), 'team')}, for those who "
        "want one; the next page lists them by team."
    )
    start = "as the season starts"
    if asked.scan_before:
        start = f"from {asked.scan_before:g} weeks before the first session"
    shares = [
        f"{words.percent(plan.made.ready_at_start)} with {addressed(plan.way.words)}"
        for plan in pitch.plans
        if plan.made is not None and plan.made.ready_at_start is not None
    ]
    yield f"When: scans over {asked.scan_weeks:g} weeks, {start}."
    if shares and asked.scan_before:
        yield f"Fitted before the first session: {' or '.join(shares)}."
    yield f"Fitted by: {sentence(asked.fitted_by)}"
    yield "Made again for a fault: free, in both plans."
    if asked.included:
        yield f"Included: {sentence(asked.included)}"


def _asked(offered: Offered) -> Iterator[str]:
    asked = offered.options
    days = f"on {words.plural(asked.scan_days, 'day')}" if asked.scan_days else f"on days {OPEN}"
    minutes = f"minutes a week {OPEN}"
    if asked.minutes_a_week:
        minutes = f"about {words.plural(asked.minutes_a_week, 'minute')} a week"
    yield f"Scans: a room and your athletes {days}."
    yield (
        "Records: who took part, who wore a guard, and injuries with the days they cost; "
        f"{minutes}."
    )
    yield f"For a printer in your building, space and power: {sentence(asked.space_and_power)}"


def _plans(offered: Offered) -> tuple[Part, ...]:
    pitch = offered.pitch
    beside = {name: both for name, *both in side_by_side(pitch)}
    beside[_BUSIEST] = [_busiest(plan, pitch) for plan in pitch.plans]
    beside[_READY] = [_ready(plan, offered.block) for plan in pitch.plans]
    table = Table(
        "two plans",
        "The two plans side by side.",
        (Column(""), *(Column(_HEADS[plan.way]) for plan in pitch.plans)),
        tuple((named, *map(addressed, beside[name])) for name, named in _ROWS),
        lead="Days are from request to fitting.",
    )
    stops = Paragraph(sentence(offered.options.if_it_stops), "When a printer stops:")
    way = pitch.choice.way
    opening = "The choice is yours." if way is None else f"We recommend {addressed(way.words)}."
    return (table, stops, Paragraph(addressed(pitch.choice.why), opening))


def _busiest(plan: PlanAhead, pitch: PitchAnswer) -> str:
    if plan.busiest is None:
        return "not known"
    unit, each = "prints", 1.0
    if plan.way is PrintWay.PRINTER:
        unit, each = "printer hours", pitch.input(PRINT_HOURS).value or 0.0
    most = count(pitch.prints.busiest_p95 * each)
    return f"{count(plan.busiest.median)} {unit}; 19 in 20 seasons within {most}"


def _ready(plan: PlanAhead, block: Block) -> str:
    """Return the share of orders ready for the next game, or how large it is at least."""
    if plan.served is not None and plan.served.ready is not None:
        return words.percent(plan.served.ready)
    ready, orders = (block.count(f"{of}, {plan.way}") for of in (READY, ORDERS))
    return f"at least {words.percent(ready / orders)}" if ready and orders else "not told"
