"""Athletes and their guards described: every figure once, for text, JSON, CSV, pages, documents."""

from collections.abc import Iterator
from operator import itemgetter

from seasonboard.answers.fields import Field, Group, Kind, Privacy, Table, for_people, of, why
from seasonboard.answers.returns.report import FACTS
from seasonboard.answers.roster.parts import RosterAnswer, RosterAthlete, RosterGuard
from seasonboard.answers.roster.words import (
    STRIP_KEY,
    comparable_words,
    guards_words,
    state_word,
    strip_mark,
    strip_marks,
)
from seasonboard.answers.row_fields import usual

GUARDS = Table(
    "guards",
    of("guards"),
    (
        *usual("guard", "kind", "side"),
        Field("purpose", "preventive or return"),
        Field("state", "how it stands with it", heading="guard is"),
        Field("is_in_hand", "whether it is there", Kind.FLAG),
        Field("is_late", "whether it is late", Kind.FLAG),
        Field("stage", "stage reached last", optional=True),
        Field("asked_on", "day of the request", Kind.DAY, optional=True),
        Field("fitted_on", "day of the fitting", Kind.DAY, optional=True),
        Field(
            "age_days",
            "calendar days since the request, while it is open",
            Kind.COUNT,
            optional=True,
        ),
        Field("games_missed", "games of the team since then", Kind.COUNT),
        Field(
            "taken_part",
            "sessions taken part in since it was fitted, of which is known whether it was worn",
            Kind.COUNT,
            heading="of sessions",
        ),
        Field("not_known", "those of which nobody recorded it", Kind.COUNT),
        Field("worn", "those it was worn in", Kind.COUNT, heading="worn"),
        Field("worn_share", "worn of taken_part, 0 to 1", Kind.SHARE),
        why(of("why")),
        Field("last_worn_on", "last day worn", Kind.DAY, optional=True),
        Field("remade_by", "guard ordered in its place", privacy=Privacy.KEY, optional=True),
        Field("hurt_on", "day its site was hurt", Kind.DAY, optional=True),
        Field("because", "the ground for its state, in words"),
    ),
    "a guard of the athlete, in hand or on its way",
)

_INJURY = (
    Field("injury", "key of the injury", privacy=Privacy.KEY),
    Field("area", "body area"),
    Field("side", "left, right, both or midline"),
    Field("occurred_on", "day of the onset", Kind.DAY),
    Field("day", "days since the onset", Kind.COUNT),
    Field("others", "further open injuries, which came later", Kind.COUNT),
)
_COMPARABLE = (
    Field("area", "body area"),
    Field("injuries", "injuries of that area in the store", Kind.COUNT),
    Field("still_open", "of them without a return", Kind.COUNT),
    Field("median_days_lost", "median days lost by them", Kind.COUNT),
    why(of("why")),
    Field("sentence", "the same in words", get=comparable_words, in_csv=False),
)
_STRIP = Table(
    "strip",
    of("strip"),
    (
        Field("state", "part, not recorded, or not yet joined"),
        Field(
            "guarded",
            "whether a guard was worn; empty: not known",
            Kind.FLAG,
            get=of("is_guarded"),
            optional=True,
        ),
        Field("mark", f"as one letter: {STRIP_KEY}", get=strip_mark),
    ),
    "one of the team's last sessions, the oldest first",
)


def _initials(athlete: RosterAthlete) -> str:
    """Return the first letters of a position's words; a dash where it is not recorded."""
    return "".join(word[0].upper() for word in (athlete.position or "").split()) or "–"


ATHLETES = Table(
    "athletes",
    of("athletes"),
    (
        *usual("athlete", "name", "team"),
        Field("season", "season of the team"),
        Field("jersey", "number worn", privacy=Privacy.FREE_TEXT, optional=True),
        Field("position", "position", heading="position", optional=True),
        for_people("initials", "pos", _initials),
        Field("position_group", "group of positions", optional=True),
        Field("status", "full, limited, out or not recorded", heading="state"),
        for_people("state", "state", state_word),
        Field("reason", "reason recorded", optional=True),
        Field("because", "the ground for the state, in words", heading="because", optional=True),
        Field("expected_back", "never known", get=lambda _: None, optional=True),
        Field("expected_back_why", "why no day is known"),
        Field(
            "last_recorded_on", "day of the last record", Kind.DAY, get=of("last_on"), optional=True
        ),
        Field("sessions_since", "the team's sessions since", Kind.COUNT),
        Group("injury", of("injury"), _INJURY, "the open injury; null: none is open"),
        Group(
            *("comparable_injuries", of("comparable"), _COMPARABLE),
            "how long injuries of the same area kept athletes out",
        ),
        Group(
            *("out_now", of("out_now"), FACTS),
            "of who is out at a site guards can cover: like injuries, and the return guard",
            in_csv=False,
        ),
        Field("days_lost", "days out through injury this season", Kind.COUNT, heading="days lost"),
        GUARDS,
        Field(
            "guards",
            "the guards in words",
            get=guards_words,
            heading="guards",
            show=lambda athlete: guards_words(athlete) or "none",
            in_json=False,
        ),
        Field("taken_part", "sum over fitted guards", Kind.COUNT),
        Field("worn", "sum over fitted guards", Kind.COUNT),
        Field("worn_share", "worn of taken_part, 0 to 1", Kind.SHARE),
        why(of("worn_share_why"), "worn_share_why"),
        Field(
            "needs",
            "what is to be done, in sentences",
            heading="needs",
            show=lambda athlete: " ".join(athlete.needs),
        ),
        Field("attention", "what puts the athlete in this place of the order"),
        Field(
            "next_game",
            "key of the team's next game",
            get=of("next_game.session"),
            in_json=False,
            optional=True,
        ),
        _STRIP,
        Field(
            "strip",
            f"last sessions as letters: {STRIP_KEY}",
            get=strip_marks,
            heading="sessions",
            show=strip_marks,
            in_json=False,
        ),
    ),
    "an athlete, those first that need attention",
)


def _by_guard(answer: RosterAnswer) -> Iterator[tuple[RosterAthlete, RosterGuard | None]]:
    for athlete in answer.athletes:
        for guard in athlete.guards or (None,):
            yield athlete, guard


def _athlete_fields(*names: str) -> Group:
    return Group("", itemgetter(0), tuple(ATHLETES.field(name) for name in names))


GUARD_ROWS = Table(
    "roster",
    _by_guard,
    (
        _athlete_fields("athlete", "name", "team", "position", "status", "because", "days_lost"),
        Group("guard", itemgetter(1), GUARDS.elements),
        _athlete_fields("needs"),
    ),
    "a guard with its athlete, or an athlete without any",
    reading=(
        *("athlete", "name", "team", "position", "status", "because", "days_lost"),
        *("guard.guard", "guard.kind", "guard.side", "guard.state", "guard.worn"),
        *("guard.taken_part", "needs"),
    ),
)
