"""The Capacity answer described: every figure once, for text, JSON, CSV, pages and documents."""

from dataclasses import replace

from seasonboard.answers.capacity.changes import missed_words
from seasonboard.answers.capacity.parts import (
    CapacityAnswer,
    CapacityChange,
    PrintLine,
    QueuedPrint,
)
from seasonboard.answers.capacity.words import (
    ask_words,
    games_lines,
    guard_words,
    moment,
    room_words,
    still_in_time,
)
from seasonboard.answers.fields import Field, Group, Kind, Privacy, Table, for_people, of, why
from seasonboard.answers.report import Report
from seasonboard.answers.row_fields import usual


def _over_words(one: QueuedPrint) -> str:
    """Return when a print would be over, and whether that is in time."""
    late = {None: "", True: "", False: ", late"}[one.is_in_time]
    return f"{moment(one.over_at)}{late}"


def _cost_words(line: PrintLine) -> str:
    """Return the guards that miss their next game as asked for and as planned: `5 → 3`."""
    if line.asked is None or line.planned is None:
        return "–"
    return f"{line.asked.missed} → {line.planned.missed}"


def _bare_words(line: PrintLine) -> str:
    if line.asked is None or line.planned is None:
        return "–"
    return f"{line.asked.bare} → {line.planned.bare}"


def _remake_words(line: PrintLine) -> str:
    if line.remakes is None:
        return "–"
    return f"{line.remakes_low} to {line.remakes_high}"


def _days_words(change: CapacityChange) -> str:
    made = change.simulated
    if made is None:
        return "–"
    return f"{made.days_now.mean:.1f} → {made.days_now.mean + made.days_change.mean:.1f}"


def _cost(name: str, what: str) -> Group:
    return Group(
        name,
        of(name),
        (
            Field("missed", "guards that miss their next game", Kind.COUNT),
            Field("bare", "games played bare until they are fitted", Kind.COUNT),
        ),
        f"{what}; null: why it cannot be told",
    )


def _spread(name: str, get: str, meaning: str, kind: Kind) -> Group:
    return Group(
        name,
        of(get),
        (
            Field("mean", "over the simulated seasons", kind),
            Field("low_95", "lower end of what 95 in 100 seasons hold", kind),
            Field("high_95", "its upper end", kind),
        ),
        f"{meaning}; null: why it cannot be told",
    )


QUEUE = Table.described(
    "queue",
    "a print that waits, in the order to agree on",
    Field("department", "key of the department", heading="for"),
    Field("place", "place in the order to agree on", Kind.COUNT, heading="no"),
    Field("asked_place", "place as it was asked for", Kind.COUNT, heading="asked"),
    *usual("guard", "athlete", "name", "team"),
    Field("kind", "guard kind", heading="prints", show=guard_words),
    *usual("side", "purpose", "stage"),
    Field("rule", "rule of its place", heading="by rule", show=of("rule"), optional=True),
    Field("hours", "usual hours of its print", Kind.TENTHS, optional=True),
    Field("game_on", "day of its next game", Kind.DAY, heading="game", optional=True),
    Field(
        "print_by",
        "when its print must be over to be in time",
        Kind.INSTANT,
        heading="print by",
        show=lambda one: moment(one.print_by),
    ),
    Field(
        "over_at",
        "when its print is over in this order",
        Kind.INSTANT,
        heading="printed",
        show=_over_words,
    ),
    Field("is_in_time", "whether it is fitted by its next game", Kind.FLAG),
    Field("games_bare", "games until it is fitted", Kind.COUNT),
    Field("games_bare_now", "games until then in the order asked for", Kind.COUNT),
    Field("note", "what is doubtful", heading="", show=of("note"), optional=True),
    why(of("why"), in_csv=True),
    rows=of("in_queue"),
    reading=(
        *("department", "place", "asked_place", "guard", "name", "kind", "rule", "game_on"),
        *("print_by", "over_at", "note"),
    ),
)

LINES = Table.described(
    "lines",
    "a department, and what prints for it",
    Field("department", "key of the department", heading="department"),
    Field("name", "its name"),
    Field("plan", "onsite printer or weekly allotment", optional=True),
    Field("prints_per_week", "prints that it gets in a week", Kind.COUNT, optional=True),
    Field("printers", "printers of its own", Kind.COUNT),
    Field("weekly_hours", "hours that these run in a week", Kind.TENTHS, optional=True),
    for_people("room", "prints", room_words),
    Field("queue", "prints that wait", Kind.COUNT, heading="waiting"),
    Field("weeks_ahead", "weeks until the last of them is printed", Kind.TENTHS, heading="weeks"),
    _cost("asked", "in the order asked for"),
    _cost("planned", "in the order to agree on"),
    _cost("drawless", "without keeping to drawn turns"),
    for_people("missed", "miss a game", _cost_words),
    for_people("bare", "games bare", _bare_words),
    Field("draw_costs", "guards that miss a game for the draw", Kind.COUNT, heading="draw costs"),
    Field("is_fewest", "whether no order by the rules has fewer missed", Kind.FLAG),
    Field("whole_weeks", "whole weeks known", Kind.COUNT),
    Field("weeks_over", "of them over the allotment", Kind.COUNT, heading="weeks over"),
    Field("used", "prints of prints allowed, 0 to 1", Kind.SHARE),
    Field("remakes", "remakes expected of the queue", Kind.TENTHS),
    Field("remakes_low", "lower end of what 95 in 100 such queues hold", Kind.COUNT),
    Field("remakes_high", "its upper end", Kind.COUNT),
    for_people("remade", "remakes", _remake_words),
    why(lambda line: "; ".join(filter(None, (line.why, line.used_why, line.remakes_why)))),
    reading=(
        *("department", "room", "queue", "weeks_ahead", "missed", "bare", "draw_costs"),
        *("weeks_over", "remade"),
    ),
)

PRINTERS = Table.described(
    "printers",
    "a printer",
    Field("printer", "as it is named in guards", heading="printer"),
    Field("department", "department it prints for alone", heading="of", optional=True),
    Field(
        "hours_per_week",
        "hours it runs in a week; null: 168 assumed",
        Kind.TENTHS,
        heading="hours",
        optional=True,
    ),
    Field("is_listed", "whether it is in the list of printers", Kind.FLAG),
    Field("prints", "prints of the last 28 days", Kind.COUNT, heading="prints"),
    Field("hours", "hours of these, a lower bound", Kind.TENTHS, heading="hours used"),
    Field("without_hours", "prints without hours recorded", Kind.COUNT),
    Field("hours_share", "hours used of hours available, 0 to 1", Kind.SHARE, heading="used"),
    Field("note", "what is lacking", heading="", show=of("note"), optional=True),
)

GAMES = Table.described(
    "games",
    "a coming game, the next first",
    Field("department", "key of the department"),
    Field("team", "key of the team", heading="team"),
    Field("session", "key of the game"),
    Field(
        "starts_at", "its start", Kind.INSTANT, heading="game", show=lambda g: moment(g.starts_at)
    ),
    Field("on", "its day in the department", Kind.DAY),
    Field("label", "its label", privacy=Privacy.FREE_TEXT, optional=True),
    Field(
        "ask_by",
        "last day to ask for a guard with a chance of 80 %",
        Kind.DAY,
        heading="ask by",
        show=ask_words,
    ),
    Field("is_over", "whether it is too late for that", Kind.FLAG),
    Field("orders", "orders that the chance rests on", Kind.COUNT, get=of("chance.orders")),
    Field("likeness", "which orders those are", get=of("chance.likeness")),
    Field(
        "chance_now",
        "chance if asked for now, 0 to 1",
        Kind.SHARE,
        get=of("chance.value"),
        heading="if asked now",
    ),
    Field("chance_low", "lower limit of its confidence interval", Kind.SHARE, get=of("chance.low")),
    Field("chance_high", "its upper limit", Kind.SHARE, get=of("chance.high")),
    Field("chance_is_least", "whether it is a lower bound", Kind.FLAG, get=of("chance.is_least")),
    why(lambda game: "; ".join(filter(None, (game.why, game.chance.why)))),
)

CHANGES = Table.described(
    "changes",
    "a change, simulated from own past orders",
    Field("department", "key of the department", heading="department"),
    Field("change", "what would change", heading="with"),
    Field("orders", "past orders it rests on", Kind.COUNT, heading="orders"),
    Field("weeks", "weeks they were asked for in", Kind.COUNT),
    Field("seen_days", "median days from asked to fitted, as seen", Kind.DURATION),
    _spread("missed_now", "simulated.missed_now", "share that miss their next game", Kind.SHARE),
    _spread("missed_change", "simulated.missed_change", "change of that share", Kind.HUNDREDTHS),
    _spread("days_now", "simulated.days_now", "median days from asked to fitted", Kind.TENTHS),
    _spread("days_change", "simulated.days_change", "change of these days", Kind.TENTHS),
    for_people("missed", "miss a game, of 100", missed_words),
    for_people("days", "days", _days_words),
    Field("note", "what else is known of it", optional=True),
    why(of("why")),
    for_people("beside", "", lambda one: one.why or one.note),
    reading=("department", "change", "orders", "missed", "days", "beside"),
)


def _how_simulated(answer: CapacityAnswer) -> str:
    """Return how to read the changes; nothing where none was simulated."""
    if not any(one.simulated for one in answer.changes):
        return ""
    return "Changes are simulated from past weeks drawn in blocks of four; ranges hold 95 in 100."


REPORT = Report(
    (
        Field("through", "the last day known", Kind.DAY),
        Field("returns", "return guards: first, or as-others", get=of("options.returns")),
        LINES,
        QUEUE,
        GAMES,
        CHANGES,
        PRINTERS,
    ),
    csv=QUEUE,
    text=(
        *(LINES, QUEUE, replace(GAMES, rows=still_in_time), games_lines),
        *(CHANGES, _how_simulated, PRINTERS),
    ),
)
