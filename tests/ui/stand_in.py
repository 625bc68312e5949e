"""A stand-in for an open store: small counts, the real answers, and a gate to hold replies at."""

import threading
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from typing import Any, TypeVar

import polars as pl

from seasonboard.answers.base import Doubtful, Summary
from seasonboard.answers.checks.counting import doubts
from seasonboard.answers.finder import FinderMatches, Hit, Thing
from seasonboard.answers.games.words import ONE_TICK
from seasonboard.answers.questions import PITCH, Question
from seasonboard.answers.roster.athlete import AthleteTimeline
from seasonboard.answers.rows import Cell, Column, Rows, page_in_memory
from seasonboard.errors import SeasonboardError, StoreError
from seasonboard.paging import FIRST, PageAsked
from seasonboard.scope import KnownValue, Scope, ScopeValues, read_scope
from seasonboard.store.catalogue import catalogue
from seasonboard.ui.layout.blocks import Block
from tests.patience import PATIENCE
from tests.ui import counted
from tests.ui.pitched import pitch_of

T = TypeVar("T")
Asked = Sequence[tuple[str, Mapping[str, object]]]

HOSTILE = ("[/x] Lee", "[QB] Lee", "Sam \\", "a\x1b[31mb\nc", "山田太郎", "🏒 Ada")
"""Names that break markup, terminals and columns."""


def known() -> ScopeValues:
    """What a store with two teams knows."""
    names = {
        "LF-WSOC": "women's soccer at Lanternfield College",
        "HB-WLAX": "women's lacrosse at Harbour College",
        "lanternfield": "Lanternfield College",
        "harbour": "Harbour College",
    }
    homes = {"LF-WSOC": "lanternfield", "HB-WLAX": "harbour"}
    listed = {
        "season": ("2026 fall", "2025 fall"),
        "department": ("lanternfield", "harbour"),
        "team": ("LF-WSOC", "HB-WLAX"),
        "sport": ("lacrosse", "soccer"),
        "sex": ("women",),
        "position group": ("attack", "defence"),
        "kind": ("shin", "thumb"),
        "area": ("hand", "lower leg"),
        "side": ("left", "right", "midline"),
    }
    values = {
        part: tuple(KnownValue(one, names.get(one, one), homes.get(one)) for one in ones)
        for part, ones in listed.items()
    }
    return ScopeValues(
        values=values,
        first_day=date(2026, 8, 20),
        last_day=date(2026, 11, 14),
        sessions=40,
        guards=12,
        kinds_made=("shin", "thumb"),
        covers={"shin": ("lower leg",), "thumb": ("hand",)},
    )


DOUBTS = {
    "checks/attendance_not_recorded": 12,
    "checks/injuries_without_session": 3,
    "checks/stages_missing": 2,
}
"""How many rows the data checks find."""

HITS = (
    Hit(Thing.DEPARTMENT, "harbour", "Harbour College", "onsite printer", None),
    Hit(Thing.TEAM, "HB-WLAX", "women lacrosse", "Harbour College", None),
    Hit(Thing.ATHLETE, "A7", "[/x] Lee", "HB-WLAX", "A7"),
    Hit(Thing.GUARD, "G12", "shin left", "Ann Lee · HB-WLAX", "A9"),
    Hit(Thing.SESSION, "S40", "game v Lee", "2026-11-14 · HB-WLAX", None),
)
"""What can be found."""

_STRATA = (
    # comparison, stratum, hurt guarded, hurt bare, guarded, bare, strata
    ("same session", "lower leg · G4 · attack", 1, 2, 9, 8, 1),
    ("same session", "lower leg · G6 · defence", 0, 3, 10, 9, 1),
    ("same session", "lower leg · G7 · defence", 2, 4, 12, 12, 1),
    ("same session", "lower leg · P9 · attack", 1, 0, 7, 0, 1),
    ("same session", None, 0, 0, 1874, 3377, 121),
    ("alike athletes", "soccer · attack · game · block 3", 2, 4, 220, 300, 1),
    ("alike athletes", "soccer · defence · game · block 4", 2, 5, 310, 290, 1),
    ("alike athletes", None, 0, 0, 1382, 2816, 9),
    ("crude", "all", 4, 9, 1912, 3406, 1),
)
_LEFT_OUT = (
    ("injuries", "without a session", 2),
    ("site-exposures", "after an earlier injury to the site", 31),
    ("guards worn", "of another kind at the site", 0),
)


def strata(rows: tuple[tuple[object, ...], ...] = _STRATA) -> pl.DataFrame:
    """The rows of `compare/strata`."""
    schema = {"comparison": pl.String, "stratum": pl.String}
    schema |= dict.fromkeys((*counted.COUNTS, "strata"), pl.Int64)
    schema |= {"played_on": pl.Date, "area": pl.String}
    days = (
        counted.played_on(n) if row[0] == "same session" and row[1] else None
        for n, row in enumerate(rows)
    )
    areas = ("lower leg" if row[0] == "same session" else None for row in rows)
    dated = [(*row, *more) for row, *more in zip(rows, days, areas, strict=True)]
    return pl.DataFrame(dated, schema=schema, orient="row")


def without_injuries() -> pl.DataFrame:
    """Exposures, and nobody hurt."""
    names = ("same session", "alike athletes", "crude")
    return strata(tuple((name, None, 0, 0, 50, 60, 1) for name in names))


def nothing() -> pl.DataFrame:
    """Nobody took part."""
    return strata(())


_TICK_COLUMNS = (
    *("guarded", "sport", "sex", "position_group", "tick", "width", "at_risk"),
    *("injuries", "entered"),
    *("changed", "site_injury", "other_injury", "left_roster", "set_aside", "no_more"),
    *("athletes", "sites", "horizon"),
)


def ticks(number: int = 12, *, of_guarded: int = 30, of_bare: int = 34) -> pl.DataFrame:
    """The rows of `games/ticks`: both groups dwindle, the bare one is hurt more often."""
    rows: list[tuple[object, ...]] = []
    for guarded, start, hurt_at in ((True, of_guarded, {4, 9}), (False, of_bare, {2, 3, 5, 8, 11})):
        left = start
        for tick in range(1, number + 1):
            if left <= 0:
                break
            hurt = 1 if tick in hurt_at else 0
            went = 2 if tick < number else left - hurt
            stratum = ("soccer", "women", "defence" if guarded else "attack")
            entered = start if tick == 1 else 0
            ended = (1, 0, 0, 0, 0, went - 1)
            rows.append((guarded, *stratum, tick, 1, left, hurt, entered, *ended, None, None, None))
            left -= hurt + went
        rows.append((guarded, None, None, None, None, *[None] * 10, start, start, number))
    kinds = dict.fromkeys(_TICK_COLUMNS, pl.Int64)
    kinds |= {"guarded": pl.Boolean, "sport": pl.String, "sex": pl.String}
    kinds["position_group"] = pl.String
    return pl.DataFrame(rows, schema=kinds, orient="row")


def lines_of(blocks: Iterable[Block]) -> list[str]:
    """Return the lines of a page, without styles."""
    return [line.plain for block in blocks for line in block.lines]


@dataclass
class Frames:
    """A reader over a dictionary."""

    frames: dict[str, pl.DataFrame] = field(default_factory=dict)

    def read(self, name: str, /, **_: object) -> pl.DataFrame:
        return self.frames[name]

    def read_each(self, asked: Asked) -> tuple[pl.DataFrame, ...]:
        return tuple(self.frames[name] for name, _ in asked)

    def count_each(self, asked: Asked) -> tuple[int, ...]:
        """Return the counts of the checks; most find nothing."""
        return tuple(DOUBTS.get(name, 0) for name, _ in asked)


def frames(**changes: pl.DataFrame) -> Frames:
    """The frames of a small season; a change names its question with `_` for `/`."""
    left_out = pl.DataFrame(
        _LEFT_OUT, schema={"what": pl.String, "why": pl.String, "number": pl.Int64}, orient="row"
    )
    found = {"compare/strata": strata(), "compare/left_out": left_out, "games/ticks": ticks()}
    found |= {name.replace("_", "/", 1): frame for name, frame in changes.items()}
    nobody = not found["compare/strata"].select(counted.COUNTS[:2]).sum().sum_horizontal().item()
    whole = {
        "compare/athlete_courses": counted.athlete_courses(),
        "compare/other_side": counted.other_side(),
        "compare/bare_rates": counted.bare_rates(),
    }
    derived = {name: frame.clear() if nobody else frame for name, frame in whole.items()}
    derived |= {
        "compare/athlete_strata": counted.athlete_strata(found["compare/strata"]),
        "compare/decliners": counted.decliners(found["compare/strata"]),
        "compare/recording": pl.DataFrame({"assumed": [0], "lacking": [0]}),
        "compare/attendance_recorded": counted.attendance_recorded(),
        "compare/wear_of_injured": counted.wear_of_injured(),
        "compare/control_sites": counted.control_sites(),
        "compare/questions": counted.questions(),
        "compare/burden": counted.burden(found["compare/strata"]),
        "compare/owners": counted.owners(),
        "compare/hours": counted.hours(found["compare/strata"]),
        "draw/draws": counted.draws(0),
        "compare/drawn_turns": counted.drawn_turns(),
        "compare/drawn_attendance": counted.attendance_recorded(),
        "compare/pace": pl.DataFrame({"games": [0 if nobody else 24]}),
        "games/not_on_clock": left_out.clear(),
        "games/per_game": counted.per_game(),
        "games/strata": counted.alike(found["games/ticks"]),
        "games/repeats": counted.repeats(found["games/ticks"]),
        "games/ever_never": counted.ever_never(found["games/ticks"]),
    }
    return Frames(derived | found)


@dataclass
class StandIn:
    """Answers like an open store. `hold` keeps replies back until `let_go` or `stop`."""

    reader: Frames = field(default_factory=frames)
    scope_values: ScopeValues = field(default_factory=known)
    store_label: str = "invented sample season"
    is_deaf: bool = False
    problem: SeasonboardError | None = None
    asked: list[tuple[str, Scope, object]] = field(default_factory=list)
    stops: int = 0
    covered: bool = False
    total: int | None = None
    names: tuple[str, ...] = HOSTILE
    lists: None = None
    _gate: threading.Event | None = None
    _is_stopped: bool = False
    waited_in_vain: bool = False

    def hold(self) -> threading.Event:
        """Hold what is asked from now on; returns the gate that lets it go."""
        self._gate = threading.Event()
        self._is_stopped = False
        return self._gate

    def let_go(self) -> None:
        gate, self._gate = self._gate, None
        if gate is not None:
            gate.set()

    @property
    def is_covered(self) -> bool:
        """Say whether the curtain is down; the stand-in has nothing to cover."""
        return self.covered

    def cover(self, *, is_down: bool) -> None:
        self.covered = is_down

    def stop(self) -> None:
        """Stop what is held, unless deaf."""
        self.stops += 1
        if not self.is_deaf and self._gate is not None:
            self._is_stopped = True
            self._gate.set()

    def opening_scope(self) -> Scope:
        """The shin guards of the whole store."""
        asked = {} if self.scope_values.is_empty else {"kind": "shin"}
        return read_scope(asked, self.scope_values)

    def ask(self, question: Question, scope: Scope, options: object = None) -> Any:
        """Answer through the real rules."""
        make = pitch_of if question is PITCH else question.answer()
        asked = (self.reader, scope, self.scope_values)
        wishes = () if options is None else (options,)
        return self._reply(question.name, scope, options, lambda: make(*asked, *wishes))

    def answered(self, question: Question, options: object = None, **parts: Any) -> Any:
        """Answer in the opening scope, with some of its parts changed."""
        return self.ask(question, replace(self.opening_scope(), **parts), options)

    # Tables of rows have one row for each of the names.

    def injury_rows(self, scope: Scope, page: PageAsked = FIRST) -> Rows:
        return self._rows("injury_rows", scope, None, "Injuries", page)

    def athlete_rows(self, scope: Scope, page: PageAsked = FIRST) -> Rows:
        return self._rows("athlete_rows", scope, None, "Athletes", page)

    def order_rows(self, scope: Scope, page: PageAsked = FIRST) -> Rows:
        return self._rows("order_rows", scope, None, "Orders", page)

    def check_rows(self, scope: Scope, name: str, page: PageAsked = FIRST) -> Rows:
        return self._rows("check_rows", scope, name, name, page)

    def session_rows(self, scope: Scope, session: str, page: PageAsked = FIRST) -> Rows:
        return self._rows("session_rows", scope, session, f"Session {session}", page)

    def tick_rows(self, scope: Scope, options: Any, tick: int, page: PageAsked = FIRST) -> Rows:
        word = ONE_TICK[options.clock].capitalize()
        return self._rows("tick_rows", scope, (options, tick), f"{word} {tick}", page)

    def doubts(self, scope: Scope, answer: str) -> tuple[Doubtful, ...]:
        return doubts(self.reader, scope, self.scope_values, answer)

    def athlete_timeline(self, scope: Scope, athlete: str) -> AthleteTimeline:
        summary = Summary("What was recorded of this athlete?", "", (), (), scope)
        timeline = AthleteTimeline(summary, athlete, f"Name of {athlete}", (), (), {}, 0, 0)
        return self._reply("athlete_timeline", scope, athlete, lambda: timeline)

    def find(self, scope: Scope, typed: str) -> FinderMatches:
        """Whatever of `HITS` holds what was typed."""
        told = {hit: f"{hit.key} {hit.name} {hit.beside}" for hit in HITS}
        hits = tuple(hit for hit, line in told.items() if typed.strip() and typed in line)
        return self._reply("find", scope, typed, lambda: FinderMatches(typed, hits[:2], len(hits)))

    def question_text(self, name: str) -> str:
        return catalogue()[name].sql

    def _rows(self, what: str, scope: Scope, how: object, title: str, page: PageAsked) -> Rows:
        columns = (
            Column("name", "name"),
            Column("days_lost", "days lost", is_number=True),
            Column("athlete", "athlete"),
        )
        rows: tuple[tuple[Cell, ...], ...] = tuple(
            (name, number * 10 or None, chr(64 + number) if number else None)
            for number, name in enumerate(self.names)
        )
        total = self.total or len(rows)
        found = page_in_memory(Rows(title, columns, rows, total, total), page)
        if self.total and not page.search:
            found = replace(found, matching=total)
        return self._reply(what, scope, how, lambda: found)

    def _reply(self, what: str, scope: Scope, how: object, answer: Callable[[], T]) -> T:
        self.asked.append((what, scope, how))
        gate = self._gate
        if gate is not None:
            self.waited_in_vain |= not gate.wait(PATIENCE)
            if self._is_stopped and not self.is_deaf:
                raise StoreError("The question was stopped.")
        if self.problem is not None:
            raise self.problem
        return answer()
