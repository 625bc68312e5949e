"""The first page of an offer: what it is, what both sides give, and the two plans."""

from collections.abc import Callable, Iterator

from seasonboard.answers import words
from seasonboard.answers.pitch.inputs import PRINT_HOURS
from seasonboard.answers.pitch.options import PrintWay
from seasonboard.answers.pitch.parts import PitchAnswer, PlanAhead
from seasonboard.answers.pitch.plans import queue_words
from seasonboard.answers.pitch.words import count, range_95
from seasonboard.documents.model import Column, Paragraph, Part, Points, Section, Table
from seasonboard.documents.proposal.offered import OPEN, Offered, addressed, money, sentence
from seasonboard.releases.work import ORDERS, READY

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
    yield f"Made again for a fault: {sentence(asked.remakes)}"
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
    pitch, plans = offered.pitch, offered.pitch.plans
    rows = [(name, *(told(plan, offered) for plan in plans)) for name, told in _ROWS]
    table = Table(
        "two plans",
        "The two plans side by side.",
        (Column(""), *(Column(_HEADS[plan.way]) for plan in plans)),
        tuple(rows),
        lead="Days are from request to fitting.",
    )
    stops = Paragraph(sentence(offered.options.if_it_stops), "When a printer stops:")
    way = pitch.choice.way
    opening = "The choice is yours." if way is None else f"We recommend {addressed(way.words)}."
    return (table, stops, Paragraph(addressed(pitch.choice.why), opening))


def _makes(plan: PlanAhead, _: Offered) -> str:
    most = "not known" if plan.capacity is None else f"{words.duration(plan.capacity)} a week"
    proposed = "" if plan.is_given else ", as we propose"
    if plan.printers is None:
        return f"prints: {most}{proposed}"
    hours = f" for {plan.printer_hours:g} hours a week" if plan.printer_hours else ""
    return f"{words.plural(plan.printers, 'printer')}{hours}; prints: {most}{proposed}"


def _busiest(plan: PlanAhead, offered: Offered) -> str:
    if plan.busiest is None:
        return "not known"
    unit, each = "prints", 1.0
    if plan.way is PrintWay.PRINTER:
        unit, each = "printer hours", offered.pitch.input(PRINT_HOURS).value or 0.0
    most = count(offered.pitch.prints.busiest_p95 * each)
    return f"{count(plan.busiest.median)} {unit}; 19 in 20 seasons within {most}"


def _served(plan: PlanAhead, _: Offered) -> str:
    served = plan.served
    if served is None or served.median is None:
        return "not known: no department is on it yet"
    of = "one department" if served.departments == 1 else f"{served.departments} departments"
    most = "" if served.p80 is None else f", 80 % within {served.p80:.0f}"
    return f"median {served.median:.0f}{most} ({of})"


def _ready(plan: PlanAhead, offered: Offered) -> str:
    if plan.served is not None and plan.served.ready is not None:
        return words.percent(plan.served.ready)
    ready, orders = (offered.block.count(f"{of}, {plan.way}") for of in (READY, ORDERS))
    return f"at least {words.percent(ready / orders)}" if ready and orders else "not told"


def _expected(plan: PlanAhead, _: Offered) -> str:
    days = None if plan.made is None else plan.made.turnaround_days
    return "not known" if days is None else f"median {days.median:.0f}, 80 % within {days.p80:.0f}"


def _total(plan: PlanAhead, _: Offered) -> str:
    if plan.total is None:
        return OPEN
    total = money(plan.total.median, plan.fees.currency)
    return total if plan.total.low_95 == plan.total.high_95 else f"{total} ({range_95(plan.total)})"


def _monthly(plan: PlanAhead, _: Offered) -> str:
    fee = money(plan.fees.monthly, plan.fees.currency)
    return fee if fee == OPEN else f"{fee}, {words.plural(plan.months, 'month')}"


_ROWS: tuple[tuple[str, Callable[[PlanAhead, Offered], str]], ...] = (
    ("what makes them", _makes),
    ("busiest week asks for", _busiest),
    ("what that does", lambda plan, _: queue_words(plan)),
    ("days so far", _served),
    ("ready for the next game", _ready),
    ("days to expect", _expected),
    ("fee at the start", lambda plan, _: money(plan.fees.setup, plan.fees.currency)),
    ("fee a month", _monthly),
    ("fee a print", lambda plan, _: money(plan.fees.per_print, plan.fees.currency)),
    ("total of the season", _total),
)
