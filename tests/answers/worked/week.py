"""A week with a row in every item, and no two values of a row alike."""

from datetime import UTC, date, datetime

from seasonboard.answers.base import Summary
from seasonboard.answers.orders.comparable import LateAfter
from seasonboard.answers.orders.open_orders import Attention, NextGame, OpenOrder
from seasonboard.answers.week import item_tables as tables
from seasonboard.answers.week.ahead import MissingGuard
from seasonboard.answers.week.parts import DayCounts, WeekAnswer, WeekItem
from seasonboard.scope import Scope
from seasonboard.stats.conditional_chance import Chance

ORDER = OpenOrder(
    guard="G-1",
    athlete="A-1",
    name="Ada Lee",
    team="N-WSOC",
    department="north",
    department_name="North College",
    plan="onsite printer",
    kind="shin",
    side="left",
    purpose="return",
    scan_method="phone",
    remake_of="G-0",
    stages=(),
    stage="printed",
    stage_days=2,
    age_days=19,
    age_working_days=13,
    age_hours=471.25,
    next_game=NextGame(
        "N-G7", datetime(2026, 9, 24, 18, tzinfo=UTC), date(2026, 9, 24), "at the lake", 4
    ),
    chance=Chance(0.25, 0.125, 0.5, 0.95, "log-log", "", 37, is_least=False),
    likeness="same department and kind",
    why="",
    exposures=11,
    bare=5,
    worn=3,
    late_after=LateAfter("north", 16.5, 41, "same plan"),
    attention=Attention.LATE,
)
PLAYED = {
    "team": "N-WSOC",
    "games": 2,
    "game_share": 0.9,
    "practices": 4,
    "practice_share": 0.8,
    "unrecorded": 1,
}
INJURY = {
    "name": "Bo Ray",
    "team": "N-MIH",
    "area": "knee",
    "side": "right",
    "worn": "bare",
    "state": "not yet back",
    "known_on": date(2026, 9, 15),
    "injury": "I-1",
    "athlete": "A-2",
    "occurred_on": date(2026, 9, 14),
    "setting": "game",
    "is_studied": "yes",
}
RETURN = {
    "name": "Cy Dee",
    "team": "N-MLAX",
    "area": "hand",
    "side": "left",
    "days_lost": 6,
    "returned_on": date(2026, 9, 16),
    "injury": "I-2",
    "athlete": "A-3",
}
STAGE = {
    "on": date(2026, 9, 17),
    "stage": "fitted",
    "guard": "G-2",
    "name": "Di Eff",
    "team": "N-WSB",
    "kind": "thumb",
    "side": "both",
    "purpose": "preventive",
    "athlete": "A-4",
}
REMAKE = {
    "name": "Ed Gee",
    "team": "N-WIH",
    "kind": "ankle",
    "counts_as": "remake",
    "reason": "fit",
    "on": date(2026, 9, 18),
    "guard": "G-3",
    "remake_of": "G-4",
    "athlete": "A-5",
}
OFFER = {
    "name": "Flo Hay",
    "team": "N-MBB",
    "kind": "chest",
    "answer": "declined",
    "reason": "too warm",
    "offered_on": date(2026, 9, 19),
    "offer": "O-1",
    "athlete": "A-6",
}
DECIDED = {
    "what": "done",
    "department_name": "North College",
    "text": "Order spares",
    "due_on": date(2026, 9, 21),
    "done_on": date(2026, 9, 20),
    "decided_on": date(2026, 9, 1),
    "decision": "D-1",
}
LOAD = {
    "load_no": 12,
    "loaded_at": "2026-09-20 07:30 UTC",
    "what": "wear.csv",
    "files": 1,
    "new_rows": 345,
    "changed_rows": 6,
}
GAME = {
    "played_on": date(2026, 9, 24),
    "at": "18:00",
    "team": "N-WSOC",
    "label": "at the lake",
    "guards": 1,
    "out": 2,
    "limited": 3,
    "session": "N-G7",
}
OUT = {
    "name": "Gus Ivy",
    "team": "N-WBB",
    "status": "out",
    "because": "illness",
    "area": "head",
    "since": date(2026, 9, 13),
    "athlete": "A-7",
}
DECISION = {
    "state": "due in 2 d",
    "department_name": "every department",
    "text": "Count the spares",
    "due_on": date(2026, 9, 22),
    "decided_on": date(2026, 9, 2),
    "decision": "D-2",
}


def _item(table, title, *rows, **more):
    return WeekItem(table, title, f"Of {title.lower()}.", rows, **more)


ANSWER = WeekAnswer(
    summary=Summary("?", "An answer.", (), (), Scope(date(2026, 9, 20))),
    since=date(2026, 9, 18),
    through=date(2026, 9, 20),
    days=(
        DayCounts(date(2026, 9, 19), 1, 2, 3, 4, 5, 6),
        DayCounts(date(2026, 9, 20), 7, 8, 9, 10, 11, 0),
    ),
    items=(
        _item(tables.PLAYED, "Played", PLAYED),
        _item(tables.INJURIES, "New injuries", INJURY),
        _item(tables.RETURNS, "Returns", RETURN),
        _item(tables.STAGES, "Orders", STAGE),
        _item(tables.REMAKES, "Remakes", REMAKE),
        _item(tables.OFFERS, "Offers", OFFER),
        _item(tables.DECIDED, "Decided", DECIDED),
        _item(tables.LOADS, "Loads", LOAD, LOAD, summary=1),
        _item(tables.GAMES, "Games", GAME, is_ahead=True),
        _item(*(tables.GUARDS, "Guards", MissingGuard(ORDER, date(2026, 9, 23))), is_ahead=True),
        _item(tables.OUT, "Out", OUT, is_ahead=True),
        _item(tables.LATE, "Late", ORDER, is_ahead=True),
        _item(tables.DECISIONS, "Due", DECISION, is_ahead=True),
    ),
)
