"""Two open orders: one with a game ahead; of the other hardly anything is known."""

from datetime import UTC, date, datetime

from seasonboard.answers.base import Summary
from seasonboard.answers.orders.comparable import LateAfter
from seasonboard.answers.orders.open_orders import Attention, NextGame, OpenOrder, Reached
from seasonboard.answers.orders.parts import OrdersAnswer
from seasonboard.scope import Scope
from seasonboard.stats.conditional_chance import Chance

USUAL = LateAfter("north", 16.5, 41, "same plan")
UNKNOWN = LateAfter("south", None, 7, "all orders", "fewer than 20 orders to tell it from")
AWAITED = OpenOrder(
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
    stages=(Reached("requested", datetime(2026, 9, 1, 8, tzinfo=UTC)),),
    stage="printed",
    stage_days=2,
    age_days=19,
    age_working_days=13,
    age_hours=471.25,
    next_game=NextGame(
        "N-G7", datetime(2026, 9, 24, 18, tzinfo=UTC), date(2026, 9, 24), "at the lake", 4
    ),
    chance=Chance(0.25, 0.125, 0.5, 0.95, "log-log", "followed to the end", 37, is_least=True),
    likeness="same department and kind",
    why="",
    exposures=11,
    bare=5,
    worn=3,
    late_after=USUAL,
    attention=Attention.UNLIKELY,
)
BLANK = OpenOrder(
    guard="G-2",
    athlete="A-2",
    name="Bo Ray",
    team="S-MIH",
    department="south",
    department_name="South State",
    plan="weekly allotment",
    kind="chest",
    side="midline",
    purpose="preventive",
    scan_method=None,
    remake_of=None,
    stages=(),
    stage="requested",
    stage_days=6,
    age_days=7,
    age_working_days=8,
    age_hours=90.5,
    next_game=None,
    chance=None,
    likeness=None,
    why="no game of the team is recorded ahead",
    exposures=10,
    bare=9,
    worn=0,
    late_after=UNKNOWN,
    attention=Attention.ON_ITS_WAY,
)
ANSWER = OrdersAnswer(
    summary=Summary("?", "An answer.", (), (), Scope(date(2026, 9, 20))),
    as_of=date(2026, 9, 20),
    orders=(AWAITED, BLANK),
    known=30,
    fitted=20,
    cancelled=5,
    retired=3,
    late_after=(USUAL, UNKNOWN),
)
OBJECT = {
    "as_of": "2026-09-20",
    "known": 30,
    "open": 2,
    "fitted": 20,
    "cancelled": 5,
    "retired": 3,
    "late": 0,
    "late_after": [
        {"department": "north", "days": 16.5, "orders": 41, "likeness": "same plan"},
        {
            "department": "south",
            "days": None,
            "orders": 7,
            "likeness": "all orders",
            "why": "fewer than 20 orders to tell it from",
        },
    ],
    "orders": [
        {
            "guard": "G-1",
            "athlete": "A-1",
            "name": "Ada Lee",
            "team": "N-WSOC",
            "department": "north",
            "plan": "onsite printer",
            "kind": "shin",
            "side": "left",
            "purpose": "return",
            "scan_method": "phone",
            "remake_of": "G-0",
            "stages": [{"stage": "requested", "reached_at": "2026-09-01T08:00:00+00:00"}],
            "stage": "printed",
            "stage_days": 2,
            "age_days": 19,
            "age_working_days": 13,
            "age_hours": 471.25,
            "late": False,
            "late_after_days": 16.5,
            "attention": "not likely by the next game",
            "next_game": {
                "session": "N-G7",
                "starts_at": "2026-09-24T18:00:00+00:00",
                "on": "2026-09-24",
                "label": "at the lake",
                "days_ahead": 4,
            },
            "chance_by_next_game": 0.25,
            "chance_low": 0.125,
            "chance_high": 0.5,
            "chance_is_least": True,
            "comparable_orders": 37,
            "likeness": "same department and kind",
            "why": "followed to the end",
            "exposures": 11,
            "exposures_bare": 5,
            "exposures_worn": 3,
        },
        {
            "guard": "G-2",
            "athlete": "A-2",
            "name": "Bo Ray",
            "team": "S-MIH",
            "department": "south",
            "plan": "weekly allotment",
            "kind": "chest",
            "side": "midline",
            "purpose": "preventive",
            "scan_method": None,
            "remake_of": None,
            "stages": [],
            "stage": "requested",
            "stage_days": 6,
            "age_days": 7,
            "age_working_days": 8,
            "age_hours": 90.5,
            "late": None,
            "late_after_days": None,
            "attention": "on its way",
            "next_game": None,
            "chance_by_next_game": None,
            "chance_low": None,
            "chance_high": None,
            "chance_is_least": None,
            "comparable_orders": None,
            "likeness": None,
            "why": "no game of the team is recorded ahead; "
            "late: fewer than 20 orders to tell it from",
            "exposures": 10,
            "exposures_bare": 9,
            "exposures_worn": 0,
        },
    ],
}
CSV = [
    "guard,athlete,name,team,department,plan,kind,side,purpose,scan_method,remake_of,stage,"
    "stage_days,age_days,age_working_days,age_hours,late,late_after_days,attention,"
    "next_game_session,next_game_starts_at,next_game_on,next_game_label,next_game_days_ahead,"
    "chance_by_next_game,chance_low,chance_high,chance_is_least,comparable_orders,likeness,why,"
    "exposures,exposures_bare,exposures_worn",
    "G-1,A-1,Ada Lee,N-WSOC,north,onsite printer,shin,left,return,phone,G-0,printed,"
    "2,19,13,471.25,False,16.5,not likely by the next game,"
    "N-G7,2026-09-24T18:00:00+00:00,2026-09-24,at the lake,4,"
    "0.25,0.125,0.5,True,37,same department and kind,followed to the end,"
    "11,5,3",
    "G-2,A-2,Bo Ray,S-MIH,south,weekly allotment,chest,midline,preventive,,,requested,"
    "6,7,8,90.5,,,on its way,"
    ",,,,,"
    ",,,,,,no game of the team is recorded ahead; late: fewer than 20 orders to tell it from,"
    "10,9,0",
]
TEXT = [
    "guard  athlete       kind      stage  days in it  age   next game  by then  comparable    "
    " bare",
    "G-1    Ada Lee  shin left    printed           2   19  Thu 24 Sep   ≥ 25 %          37  5 "
    "of 11  not likely by the next game",
    "G-2     Bo Ray      chest  requested           6    7  none ahead        –           –  9 "
    "of 10  on its way",
    "",
    "north: late when open for more than 16.5 days (same plan, 41 orders)",
    "south: no order is called late (fewer than 20 orders to tell it from)",
]
