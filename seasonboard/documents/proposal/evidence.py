"""The evidence behind an offer: the figures of one release, as tables and pictures."""

from collections.abc import Sequence

from seasonboard.answers import words
from seasonboard.answers.compare.comparisons import CRUDE, DECLINERS, DRAWN_TURNS, HEADLINE, REMOVES
from seasonboard.answers.fields import Kind
from seasonboard.answers.games.parts import Clock
from seasonboard.answers.games.words import AS_PLAYED, ONE_TICK, TICKS
from seasonboard.answers.pitch.inputs import WORN_IN
from seasonboard.answers.pitch.parts import PitchAnswer
from seasonboard.answers.take_up.parts import ELIGIBLE, STEPS
from seasonboard.disclosure.count_table import THRESHOLD
from seasonboard.documents.model import Cell, Column, Paragraph, Part, Picture, Section, Table
from seasonboard.documents.svg.curves import CurveLine, still_open, survival
from seasonboard.documents.svg.drawing import PictureWords
from seasonboard.documents.svg.ranges import ForestRow, forest
from seasonboard.releases.basis import told_rate, told_share
from seasonboard.releases.block import AGREEMENT, SAME_SITES, Block
from seasonboard.releases.injuries import ARMS, AT_RISK, CLOCK, CURVE, EXPOSURES, RATIO
from seasonboard.releases.work import (
    DECIDED,
    DEPARTMENTS,
    FITTED,
    ORDERS,
    READY,
    REMADE,
    STILL_OPEN,
    TIMES,
    step_name,
)

HIDDEN = "hidden"
_APART = (DECLINERS, DRAWN_TURNS)
_ALL = "all orders"
_FEW, _NOT_TOLD = "too few", "not told"
_INTERVAL = "95 % confidence interval"


def evidence_sections(block: Block) -> tuple[Section, ...]:
    """Return the sections of what was recorded at departments served."""
    return (
        Section("Appendix: how long a guard took", _turnaround(block), starts_page=True),
        Section("What came back", _remakes(block)),
        Section("Who took a guard, and wears it", _take_up(block)),
        Section("Injuries in departments served", _injuries(block)),
        Section("Games before an injury", _followed(block)),
    )


def _count(block: Block, name: str) -> Cell:
    """Return a count, marked where it was told higher before, or that it is hidden."""
    count = block.count(name)
    if count is None:
        return HIDDEN
    return f"{words.whole(count)} (corrected)" if name in block.corrected else count


def _digits(value: float | None, digits: int, unknown: Cell) -> Cell:
    """Return a figure with the digits it is told in; what stands in its place where it is not."""
    return unknown if value is None else round(value, digits)


def _injuries(block: Block) -> tuple[Part, ...]:
    if not any(arm in block.masked.table.cells for arm in ARMS):
        return (Paragraph("No figures on injuries are released for this kind of guard."),)
    rows = []
    for arm, word in ARMS.items():
        rate = told_rate(block, arm)
        ends = (None,) * 3 if rate is None else (rate.value, rate.low, rate.high)
        figures = (_digits(end, 2, HIDDEN) for end in ends)
        rows.append((word, _count(block, arm), _count(block, EXPOSURES[arm]), *figures))
    table = Table(
        "injuries",
        "Injuries and exposures, guarded and bare.",
        (
            Column("sites"),
            Column("injuries", Kind.COUNT),
            Column("site-exposures", Kind.COUNT),
            Column("per 1000", Kind.HUNDREDTHS),
            *(Column(end, Kind.HUNDREDTHS) for end in ("from", "to")),
        ),
        tuple(rows),
        lead="A site-exposure is one site of one athlete in one session; from and to are the "
        f"{_INTERVAL}.",
    )
    return (_forest(block), table)


def _forest(block: Block) -> Picture:
    rows = [_forest_row(block, name) for name in REMOVES if name not in _APART]
    title = "How often guarded sites were hurt, against bare ones"
    about = "A row for each comparison, its interval as a line on a scale of ratios: " + "; ".join(
        f"{row.name}, {row.note}" for row in rows
    )
    table = Table(
        "comparisons",
        "Comparisons; the first is the one to quote, the last one is not to be quoted.",
        (
            Column("comparison"),
            *(Column(name, Kind.HUNDREDTHS) for name in ("ratio", "from", "to")),
            Column("what it removes"),
        ),
        tuple(
            (
                row.name,
                *(_NOT_TOLD if each is None else each for each in (row.value, row.low, row.high)),
                REMOVES[row.name],
            )
            for row in rows
        ),
        note=f"From and to are the {_INTERVAL}. "
        "Ratio of injuries per exposure, guarded over bare: below 1, guarded sites were hurt "
        f"less often. Not shown where a group has 1 to {THRESHOLD - 1} injuries, or where such a "
        "count could be worked out.",
    )
    sides = ("hurt less often", "hurt more often")
    labels = PictureWords("forest", title, about, "guarded / bare", *sides)
    return Picture(title, about, forest(labels, rows), table)


def _forest_row(block: Block, name: str) -> ForestRow:
    figure = block.figure(f"{RATIO}, {name}")
    value = low = high = None
    note = "too few injuries"
    if figure is not None:
        value, low, high = figure.value, figure.low, figure.high
        note = "not known"
        if (value, low, high) != (None, None, None):
            note = f"{words.ratio(value)} ({words.interval(low, high)})"
    return ForestRow(name, value, low, high, note, name == HEADLINE, name == CRUDE)


def _points(block: Block, of: str) -> list[tuple[float, float]]:
    """Return the points of a curve that is told, by their place."""
    points = []
    for place in block.cuts(of):
        figure = block.figure(f"{of}, {place}")
        if "," not in place and figure is not None and figure.value is not None:
            points.append((float(place), figure.value))
    return sorted(points)


def _followed(block: Block) -> tuple[Part, ...]:
    clock = block.figure(CLOCK)
    if clock is None:
        return (
            Paragraph(
                "Too few injuries to publish a curve: between two of its points, and in each "
                f"group, {THRESHOLD} or more are needed, or none."
            ),
        )
    mixed = (
        "The curves are as played: of different mixes of athletes, sports and parts of the season, "
        "as in the crude ratio. The same-session ratio above is the one that compares like with "
        "like."
    )
    return (_curves(block, Clock(clock.words)), Paragraph(mixed, "Read with care:"))


def _curves(block: Block, clock: Clock) -> Picture:
    one, ticks = ONE_TICK[clock], TICKS[clock]
    curves = [(word, _points(block, f"{CURVE}, {word}")) for word in ARMS.values()]
    risk = {
        (word, at): block.count(f"{AT_RISK}, {word}, {at:g}")
        for word, own in curves
        for at, _ in own
    }
    drawn = [
        CurveLine(
            word,
            tuple(own),
            tuple((at, at_risk) for at, _ in own if (at_risk := risk[word, at]) is not None),
            words.percent(own[-1][1]),
        )
        for word, own in curves
    ]
    by = "sessions taken part in" if clock is Clock.SESSIONS else f"{ticks} played"
    title = f"Share of sites not yet injured, by {by}: {AS_PLAYED}"
    about = "Two lines that fall from 100 %: " + "; ".join(
        f"{word}, {words.percent(own[-1][1])} after {one} {own[-1][0]:g}" for word, own in curves
    )
    table = Table(
        "before an injury",
        "The same as a table.",
        (
            Column("sites"),
            Column(f"after {one}", Kind.COUNT),
            Column("not yet injured", Kind.SHARE),
            Column("at risk there", Kind.COUNT),
        ),
        tuple(
            (word, int(at), share, HIDDEN if risk[word, at] is None else risk[word, at])
            for word, own in curves
            for at, share in own
        ),
        note=f"Only points are known between which {THRESHOLD} or more were injured, or none, and "
        "at which as many were at risk; straight lines join them. A site is guarded or bare by "
        "what was worn at each step.",
    )
    until = int(max(own[-1][0] for _, own in curves))
    summary = PictureWords("survival", title, about, ticks, counts="at risk")
    return Picture(title, about, survival(summary, drawn, until=until), table)


def _turnaround(block: Block) -> tuple[Part, ...]:
    if not block.masked.table.cells.get(ORDERS):
        return (Paragraph("No order is recorded yet."),)
    plans = block.cuts(ORDERS)
    rows = [_turnaround_row(block, f", {plan}", plan) for plan in plans]
    rows.append(_turnaround_row(block, "", _ALL))
    table = Table(
        "turnaround",
        "Days from requested to fitted, by how a department gets its prints; open orders count up "
        "to their age.",
        (
            Column("plan"),
            Column("of"),
            Column("orders", Kind.COUNT),
            *(Column(name, Kind.WHOLE) for name in ("median", "from", "to")),
            Column("80 % within", Kind.WHOLE),
            Column("95 % within", Kind.WHOLE),
            Column("ready for the next game", Kind.SHARE),
        ),
        tuple(rows),
        note=f"From and to are the {_INTERVAL} of the median. A time is told where {THRESHOLD} or "
        "more orders lie on either side of it.",
    )
    curves = [
        (plan, points) for plan in plans if (points := _points(block, f"{STILL_OPEN}, {plan}"))
    ]
    return (_open_orders(curves), table) if curves else (table,)


def _turnaround_row(block: Block, cut: str, name: str) -> tuple[Cell, ...]:
    figures = {time: block.figure(f"{time}{cut}") for time in TIMES}
    times: dict[str, Cell] = {
        time: _FEW if one is None or one.value is None else round(one.value)
        for time, one in figures.items()
    }
    median = figures["median"]
    ends = () if median is None else (median.low, median.high)
    limits = [_digits(end, 0, _FEW) for end in ends] or [_FEW, _FEW]
    behind = block.figure(f"{DEPARTMENTS}{cut}")
    count = block.departments if behind is None else round(behind.value or 0)
    of = "one department" if count == 1 else words.plural(count, "department")
    ready = told_share(block, f"{READY}{cut}", f"{DECIDED}{cut}")
    share = HIDDEN if ready is None or ready.value is None else round(ready.value, 2)
    return (
        *(name, of, _count(block, f"{ORDERS}{cut}"), times["median"], *limits),
        *(times["p80"], times["p95"], share),
    )


def _open_orders(curves: Sequence[tuple[str, list[tuple[float, float]]]]) -> Picture:
    drawn = [CurveLine(plan, tuple(points)) for plan, points in curves]
    until = int(max(points[-1][0] for _, points in curves)) + 1
    title = "Share of orders still open, by days since the request"
    about = "A line for each plan that falls from 100 %: " + "; ".join(
        f"{plan}, {words.percent(points[-1][1])} after {points[-1][0]:.0f} days"
        for plan, points in curves
    )
    table = Table(
        "orders still open",
        "The same as a table.",
        (Column("plan"), Column("after days", Kind.COUNT), Column("still open", Kind.SHARE)),
        tuple((plan, int(at), share) for plan, points in curves for at, share in points),
        note=f"Only points are known between which {THRESHOLD} or more guards were fitted, or "
        "none; straight lines join them.",
    )
    summary = PictureWords("open", title, about, "days")
    return Picture(title, about, still_open(summary, drawn, until=until), table)


def _remakes(block: Block) -> tuple[Part, ...]:
    window = block.figure("days of a remake")
    share = told_share(block, REMADE, FITTED)
    if share is None or share.value is None or window is None:
        return (Paragraph("How many guards were made again may not be told, or none is fitted."),)
    text = (
        f"{words.percent(share.value)} of {words.whole(share.trials)} fitted guards were remade "
        f"within {round(window.value or 0)} days ({_INTERVAL}: {words.share_interval(share)}). "
        "Recent guards count as far as they are known."
    )
    return (Paragraph(text),)


def _take_up(block: Block) -> tuple[Part, ...]:
    rows = []
    for step in STEPS:
        share = told_share(block, step_name(step), step_name(ELIGIBLE))
        of_all = HIDDEN if share is None or share.value is None else round(share.value, 2)
        rows.append((step, _count(block, step_name(step)), of_all))
    table = Table(
        "take-up",
        "From eligible to worn.",
        (Column("step"), Column("athletes", Kind.COUNT), Column("of all", Kind.SHARE)),
        tuple(rows),
    )
    worn = block.figure(WORN_IN)
    if worn is None or worn.value is None:
        return (table,)
    limits = ""
    if worn.low is not None and worn.high is not None:
        limits = f" ({_INTERVAL}: {words.percent(worn.low)} to {words.percent(worn.high)})"
    text = f"A fitted guard was worn in {words.percent(worn.value)}{limits} of the sessions."
    return (table, Paragraph(text))


def keep_in_mind(pitch: PitchAnswer, block: Block) -> tuple[str, ...]:
    """Return what was hidden or left out, and what to keep in mind."""
    lines = [
        f"“hidden” stands for a count of 1 to {THRESHOLD - 1}, for one from which such a count "
        "could be worked out, and for one of too few departments.",
        *(one.words for name in (AGREEMENT, SAME_SITES) if (one := block.figure(name))),
    ]
    if block.corrected:
        lines.append(f"Corrected since an earlier release: {', '.join(block.corrected)}.")
    lines += [each for each in pitch.summary.caveats if each not in pitch.prospect.notes]
    lines.append(
        "Hiding small counts is a safeguard, not a finding that nobody can be known again: who "
        "knows a team may know more."
    )
    return tuple(dict.fromkeys(lines))
