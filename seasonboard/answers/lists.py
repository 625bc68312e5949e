"""What the store offers to a record that is typed in: lists to choose from, and free keys."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date

from seasonboard.answers.reader import Reader
from seasonboard.paging import PageAsked
from seasonboard.stored_tables import TABLES
from seasonboard.terms import RULES

MOST_FOUND = 20
"""Lines offered at once; typing more letters narrows them."""

Cells = Mapping[str, str]


@dataclass(frozen=True, slots=True)
class ListLine:
    """One line to choose: the key it stands for, how it is shown, and all cells of its row."""

    value: str
    shown: str
    beside: str
    cells: Cells


@dataclass(frozen=True, slots=True)
class MatchingLines:
    """The first lines that match, and how many match in all."""

    lines: tuple[ListLine, ...]
    matching: int


@dataclass(frozen=True, slots=True)
class _StoreList:
    """How one list is shown, and which columns narrow it beside what is typed."""

    shown: Callable[[Cells], str]
    beside: Callable[[Cells], str]
    given: tuple[str, ...] = ()
    fixed: Mapping[str, object] | None = None


def _joined(*names: str) -> Callable[[Cells], str]:
    return lambda cells: " · ".join(cells[name] for name in names if cells[name])


def _guards(*, living: bool) -> _StoreList:
    def beside(cells: Cells) -> str:
        stage = cells["stage"] or "no stage recorded"
        return f"{cells['name']} · {cells['kind']}, {cells['side']} · {stage}"

    return _StoreList(lambda cells: cells["guard"], beside, ("athlete",), {"living": living})


LISTS: Mapping[str, _StoreList] = {
    "athletes": _StoreList(lambda cells: cells["name"], _joined("athlete", "teams", "jersey")),
    "sessions": _StoreList(
        lambda cells: cells["session"],
        _joined("played_on", "starts", "team", "setting", "label"),
        ("athlete", "day"),
    ),
    "teams": _StoreList(lambda cells: cells["team"], _joined("sex", "sport", "department")),
    "departments": _StoreList(lambda cells: cells["name"], _joined("department")),
    "kinds": _StoreList(lambda cells: cells["kind"], _joined("areas")),
    "guards": _guards(living=False),
    "living_guards": _guards(living=True),
    "open_injuries": _StoreList(
        _joined("name", "occurred_on", "area", "side"), lambda cells: cells["injury"]
    ),
    "open_offers": _StoreList(_joined("name", "kind", "offered_on"), _joined("answer", "offer")),
    "turns": _StoreList(_joined("place", "name"), _joined("kind", "side", "athlete")),
    "open_decisions": _StoreList(
        lambda cells: cells["text"], _joined("decision", "department", "due_on")
    ),
}
"""Every list there is; its question has the same name, the key is its first column."""

_QUESTIONS = {"living_guards": "guards"}


class Lists:
    """Reads what the store offers. Every method may be called from a thread.

    Each raises `StoreError` when the store cannot be read.
    """

    def __init__(self, reader: Reader) -> None:
        """Offer what `reader` knows."""
        self._reader = reader

    def find(self, name: str, typed: str = "", given: Cells | None = None) -> MatchingLines:
        """Return the lines of a list in which every typed word stands.

        Args:
            name: One of `LISTS`.
            typed: A few letters of each word, in any capitals and accents.
            given: Cells that are settled already, such as the athlete of a session.
        """
        how = LISTS[name]
        params = {one: (given or {}).get(one) or None for one in how.given}
        if "day" in params:
            params["day"] = _day(params["day"])
        question = f"log_forms/{_QUESTIONS.get(name, name)}"
        page = PageAsked(MOST_FOUND, search=typed)
        matches = self._reader.read_page(question, page, **params, **(how.fixed or {}))
        key = matches.rows.columns[0]
        rows = (_as_text(row) for row in matches.rows.iter_rows(named=True))
        lines = (ListLine(row[key], how.shown(row), how.beside(row), row) for row in rows)
        return MatchingLines(tuple(lines), matches.matching)

    def line_of(self, name: str, key: str) -> ListLine | None:
        """Return the line of a key, if the list has it."""
        lines = self.find(name, key).lines
        return next((line for line in lines if line.value == key), None)

    def free_key(self, table: str, team: str | None = None) -> str:
        """Return the next number in the way the store's own keys are numbered.

        Returns:
            The key; empty where rows of the table make their own key and none is numbered.
        """
        styles = self._reader.read("log_forms/last_key", of_table=table, team=team)
        if styles.is_empty():
            return TABLES[table].first_key
        first = styles.row(0, named=True)
        return f"{first['style']}{first['number'] + 1:0{first['width']}}"

    def time_zone(self, **of: str) -> str | None:
        """Return the zone in which times of a team, an athlete or a guard are written.

        Returns:
            Its name; None where none or several fit.
        """
        asked = {name: of.get(name) or None for name in ("team", "athlete", "guard")}
        zones = self._reader.read("log_forms/time_zone", **asked)["time_zone"]
        return str(zones[0]) if len(zones) == 1 else None

    def rules(self, athlete: str, kind: str, purpose: str) -> str:
        """Return what keeps a guard out of games, or covers it there, by the rules looked up."""
        asked = {"athlete": athlete, "kind": kind, "purpose": purpose}
        told = [
            f"{sport}: {rule} ({source}, {on})"
            for sport, rule, source, on in self._reader.read("log_forms/rule", **asked).iter_rows()
            if rule in RULES[1:]
        ]
        return f"In games, {'; '.join(told)}." if told else ""

    def worn(self, session: str, athlete: str, area: str, side: str) -> tuple[str, ...]:
        """Return the guards of a site recorded as worn in a session: `G00012 (shin, left)`."""
        asked = {"session": session, "athlete": athlete, "area": area, "side": side}
        rows = self._reader.read("log_forms/worn", **asked).iter_rows()
        return tuple(f"{guard} ({kind}, {side_of})" for guard, kind, side_of in rows)


def _day(text: str | None) -> str | None:
    """Return a day that is written as one; half-typed ones narrow nothing."""
    try:
        return date.fromisoformat(text or "").isoformat()
    except ValueError:
        return None


def _as_text(row: Mapping[str, object]) -> dict[str, str]:
    return {name: "" if value is None else str(value) for name, value in row.items()}
