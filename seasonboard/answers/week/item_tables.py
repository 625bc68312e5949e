"""The rows of each item of the week described: for page, meeting, sheet, text, JSON and CSV."""

from dataclasses import replace

from seasonboard.answers.capacity.words import step_words
from seasonboard.answers.fields import Element, Field, Group, Kind, Privacy, Table, of, why
from seasonboard.answers.orders.report import ORDERS, why_no_chance
from seasonboard.answers.row_fields import usual

_REASON = Field("reason", "reason recorded", heading="reason", optional=True)
_DECISION = (
    Field("department_name", "whom it concerns", heading="department"),
    Field("text", "what is to be done", heading="decision", privacy=Privacy.FREE_TEXT),
)
_DUE_ON = Field("due_on", "day set for it", Kind.DAY, heading="due", optional=True)
_DECIDED_ON = Field("decided_on", "day of the decision", Kind.DAY, heading="decided")
_DECISION_KEY = Field("decision", "key of the decision", heading="key", privacy=Privacy.KEY)


def _count(name: str, meaning: str, heading: str) -> Field:
    return Field(name, meaning, Kind.COUNT, heading=heading)


def _share(name: str, meaning: str, heading: str) -> Field:
    return Field(name, meaning, Kind.SHARE, heading=heading, optional=True)


def _day(name: str, meaning: str, heading: str) -> Field:
    return Field(name, meaning, Kind.DAY, heading=heading)


def _item(name: str, meaning: str, *elements: Element) -> Table:
    return Table(name, of("rows"), elements, meaning)


PLAYED = _item(
    *("played", "a team, and what it played"),
    *usual("team"),
    _count("games", "games held", "games"),
    _share("game_share", "share available at games, 0 to 1", "available at games"),
    _count("practices", "practices held", "practices"),
    _share("practice_share", "share available at practices, 0 to 1", "at practices"),
    _count("unrecorded", "sessions without any attendance recorded", "not recorded"),
)
INJURIES = _item(
    *("injuries", "an injury that became known"),
    *usual("name", "team", "area", "side"),
    Field("worn", "guarded, bare, not known or no session", heading="at the site"),
    Field("state", "not yet back, or since when", heading="state"),
    *(_day("known_on", "day it became known", "known"), *usual("injury", "athlete")),
    _day("occurred_on", "day of the onset", "onset"),
    Field("setting", "game or practice", heading="in a", optional=True),
    Field("is_studied", "yes: these guards cover its site", heading="site of the scope"),
)
RETURNS = _item(
    *("returns", "a return from an injury"),
    *usual("name", "team", "area", "side"),
    _count("days_lost", "days lost by the injury", "days lost"),
    *(_day("returned_on", "day of the return", "back"), *usual("injury", "athlete")),
)
STAGES = _item(
    *("orders", "a stage that an order reached"),
    _day("on", "day it was reached", "day"),
    *usual("stage", "guard", "name", "team", "kind", "side", "purpose", "athlete"),
)
REMAKES = _item(
    *("remakes", "a guard asked for in the place of another"),
    *usual("name", "team", "kind"),
    Field("counts_as", "remake or replacement", heading="counts as"),
    *(_REASON, _day("on", "day of the request", "asked"), *usual("guard")),
    Field("remake_of", "guard that it replaces", heading="in the place of", privacy=Privacy.KEY),
    *usual("athlete"),
)
OFFERS = _item(
    *("offers", "an offer, with its answer"),
    *usual("name", "team", "kind"),
    Field("answer", "accepted, declined or undecided", heading="answer"),
    replace(_REASON, privacy=Privacy.FREE_TEXT),
    _day("offered_on", "day of the offer", "day"),
    Field("rule", "whether one may be worn in games, as looked up", heading="in games"),
    Field("offer", "key of the offer", heading="offer", privacy=Privacy.KEY),
    *usual("athlete"),
)
DECIDED = _item(
    *("decided", "a decision made or done"),
    Field("what", "made, done, or made and done", heading="what"),
    *(*_DECISION, _DUE_ON, replace(_day("done_on", "day it was done", "done"), optional=True)),
    *(_DECIDED_ON, _DECISION_KEY),
)
JUMPED = _item(
    *("jumped", "a drawn turn that was jumped"),
    *usual("name", "team", "kind", "side"),
    Field("draw", "key of the draw", heading="draw"),
    _count("turn", "its place in the order drawn", "turn"),
    Field("jump_reason", "why", heading="because", privacy=Privacy.FREE_TEXT),
    *(_day("jumped_on", "day it was made out of turn", "day"), *usual("athlete")),
)
LOADS = _item(
    *("loads", "a load into the store"),
    _count("load_no", "its number", "load"),
    Field("loaded_at", "when", heading="at"),
    Field("what", "what was loaded", heading="what", optional=True),
    _count("files", "files read", "files"),
    _count("new_rows", "rows that were new", "new rows"),
    _count("changed_rows", "rows that were changed", "changed rows"),
)
GAMES = _item(
    *("games", "a game ahead"),
    _day("played_on", "its day in the department", "day"),
    *(Field("at", "its start in the department's time", heading="at"), *usual("team")),
    Field("label", "its label", heading="game", privacy=Privacy.FREE_TEXT, optional=True),
    _count("guards", "guards of the team not there", "guards not there"),
    _count("out", "athletes out", "out"),
    *(_count("limited", "athletes limited", "limited"), *usual("session")),
)
_AWAITED = (
    *(*usual("name", "team", "kind", "stage"), replace(ORDERS.field("age_days"), heading="days")),
    *(replace(ORDERS.field("chance_by_next_game"), heading="chance by then"), why(why_no_chance)),
)
_STATE = replace(ORDERS.field("attention"), heading="state")
GUARDS = _item(
    *("guards", "a guard that will not be there"),
    Group("", of("order"), _AWAITED),
    _day("game_on", "day of the team's next game", "game"),
    Group("", of("order"), (*usual("guard"), _STATE, *usual("side", "athlete"))),
)
CHANGE = _item(
    *("change", "a guard that can still be there, and the step it waits for"),
    Group("", of("order"), usual("name", "team", "kind", "stage")),
    Field("until", "what to do, and until when", get=step_words, heading="to do"),
    Field("meanwhile", "bare, or the guard worn until then", heading="meanwhile"),
    _day("game_on", "day of the team's next game", "game"),
    Field("by", "the last hour for that step", Kind.INSTANT, optional=True),
    Group("", of("order"), usual("guard", "side", "athlete")),
)
OUT = _item(
    *("out", "an athlete out or limited"),
    *usual("name", "team"),
    Field("status", "out or limited", heading="state"),
    *(Field("because", "reason recorded", heading="because"), *usual("area")),
    replace(_day("since", "day of the onset, else of the last record", "since"), optional=True),
    Field("like_injuries", "when these were over: no forecast", heading="like injuries over"),
    Field("return_guard", "how it stands with it", heading="return guard"),
    *usual("athlete"),
)
LATE = _item(
    *("late", "a late order"),
    *usual("name", "team", "kind", "stage"),
    replace(ORDERS.field("age_days"), heading="days"),
    replace(ORDERS.field("late_after_days"), heading="late after"),
    *usual("guard", "department", "athlete"),
)
DECISIONS = _item(
    *("decisions", "a decision still to be done"),
    Field("state", "overdue or due, and by how many days", heading="state"),
    *(*_DECISION, _DUE_ON, _DECIDED_ON, _DECISION_KEY),
)

ITEM_TABLES: tuple[Table, ...] = (
    *(PLAYED, INJURIES, RETURNS, STAGES, REMAKES, JUMPED, OFFERS, DECIDED, LOADS),
    *(CHANGE, GAMES, GUARDS, OUT, LATE, DECISIONS),
)
"""Each item's table, in the order of the items."""
