"""A week with a row in every item, and no two values of a row alike."""

import tomllib
from dataclasses import replace
from datetime import date, datetime
from pathlib import Path
from zoneinfo import ZoneInfo

from seasonboard.answers.base import Summary
from seasonboard.answers.capacity.levers import Lever
from seasonboard.answers.orders.open_orders import Attention
from seasonboard.answers.week import item_tables as tables
from seasonboard.answers.week.ahead import MissingGuard
from seasonboard.answers.week.parts import DayCounts, WeekAnswer, WeekItem
from seasonboard.scope import Scope
from tests.answers.worked.orders import AWAITED

ROWS = tomllib.loads(Path(__file__).with_name("week_rows.toml").read_text("utf-8"))
ORDER = replace(
    AWAITED,
    stages=(),
    chance=replace(AWAITED.chance, why="", is_least=False),
    why="",
    attention=Attention.LATE,
)
LEVER = Lever(
    *(replace(ORDER, athlete="A-9", name="Ivo Kay", guard="G-9"), date(2026, 9, 25), "print it"),
    *(datetime(2026, 9, 22, 15, tzinfo=ZoneInfo("America/Denver")), True, "G-8", False, ""),
)


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
        _item(tables.PLAYED, "Played", ROWS["played"]),
        _item(tables.INJURIES, "New injuries", ROWS["injury"]),
        _item(tables.RETURNS, "Returns", ROWS["return"]),
        _item(tables.STAGES, "Orders", ROWS["stage"]),
        _item(tables.REMAKES, "Remakes", ROWS["remake"]),
        _item(tables.JUMPED, "Jumped turns", ROWS["jumped"]),
        _item(tables.OFFERS, "Offers", ROWS["offer"]),
        _item(tables.DECIDED, "Decided", ROWS["decided"]),
        _item(tables.LOADS, "Loads", ROWS["load"], ROWS["load"], summary=1),
        _item(tables.CHANGE, "Still to be changed", LEVER, is_ahead=True),
        _item(tables.GAMES, "Games", ROWS["game"], is_ahead=True),
        _item(*(tables.GUARDS, "Guards", MissingGuard(ORDER, date(2026, 9, 23))), is_ahead=True),
        _item(tables.OUT, "Out", ROWS["out"], is_ahead=True),
        _item(tables.LATE, "Late", ORDER, is_ahead=True),
        _item(tables.DECISIONS, "Due", ROWS["decision"], is_ahead=True),
    ),
)
