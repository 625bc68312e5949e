"""The Turns answer described: every figure once, for text, JSON, CSV, pages and documents."""

from collections.abc import Iterator
from dataclasses import replace

from seasonboard.answers.fields import Field, Kind, Privacy, Table, for_people
from seasonboard.answers.layout import prose
from seasonboard.answers.report import Report
from seasonboard.answers.row_fields import usual
from seasonboard.answers.turns.parts import Turn, TurnsAnswer


def guard_kind(turn: Turn) -> str:
    """Return what is to be made: `shin left`, `chest`."""
    return turn.kind if turn.side == "midline" else f"{turn.kind} {turn.side}"


def _rows(answer: TurnsAnswer) -> Iterator[tuple[Turn, TurnsAnswer]]:
    return ((turn, answer) for turn in answer.turns)


def _of_turn(field: Field) -> Field:
    """Return a field of a turn as one of its row."""
    show = None if field.show is None else (lambda row: field.read(row[0]))
    return replace(field, get=lambda row: field.get(row[0]), show=show)


_FIELDS = (
    Field("draw", "key of the draw", heading="draw"),
    Field("turn", "place in the order", Kind.COUNT, heading="turn"),
    Field("week", "week of printing, from 1", Kind.COUNT, heading="week"),
    Field("turn_on", "first day of that week", Kind.DAY, heading="from"),
    Field("come_on", "day from which the turn has come", Kind.DAY, heading="ready from"),
    *usual("athlete", "name", "team", "department", "kind", "side"),
    Field("stratum", "team and position group drawn in", heading="drawn in"),
    Field("earlier_injury", "whether a site of it was injured before", heading="hurt before"),
    Field("drawn_on", "day of the draw", Kind.DAY),
    Field("prints_per_week", "guards made a week", Kind.COUNT),
    Field("ready_days", "days from the turn to the fitted guard", Kind.TENTHS),
    Field("seed", "seed of the draw", Kind.COUNT),
    Field("board_number", "number of the review board", optional=True),
    Field("no_board_reason", "why no board was needed", optional=True),
    Field("guard", "key of the order", privacy=Privacy.KEY, optional=True),
    Field("stage", "stage it reached last", optional=True),
    Field("made_on", "day it was printed", Kind.DAY, optional=True),
    Field("fitted_on", "day it was fitted", Kind.DAY, optional=True),
    Field("left_on", "day the athlete left", Kind.DAY, optional=True),
    Field("jumped_on", "day it was made out of turn", Kind.DAY, optional=True),
    Field("jump_reason", "why", privacy=Privacy.FREE_TEXT, heading="reason", optional=True),
    for_people("making", "guard", guard_kind),
)
TURNS = Table(
    "turns",
    _rows,
    (
        *map(_of_turn, _FIELDS),
        Field(
            "state", "what became of it", get=lambda row: row[0].state(row[1].through), heading=""
        ),
    ),
    "a turn, the latest draw first, in the order drawn",
    ("draw", "turn", "week", "turn_on", "name", "team", "making", "state", "jump_reason"),
)


def draw_lines(answer: TurnsAnswer) -> list[str]:
    """Return how each draw was made and what the review board said, in sentences."""
    firsts = {turn.draw: turn for turn in reversed(answer.turns)}
    return [line for first in reversed(firsts.values()) for line in prose(draw_sentence(first))]


def draw_sentence(turn: Turn) -> str:
    """Return how the draw of a turn was made and what the review board said."""
    return (
        f"Draw {turn.draw} of {turn.drawn_on.day} {turn.drawn_on:%b %Y}: seed {turn.seed}, "
        f"{turn.prints_per_week} a week, ready {turn.ready_days:.3g} days after the turn; "
        f"{turn.board}."
    )


REPORT = Report((TURNS,), csv=TURNS, text=(TURNS, draw_lines))
