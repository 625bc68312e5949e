"""What a form is made of: its fields as data, and how its values become an entry."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from enum import Enum
from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo

from seasonboard.entries import Entry

if TYPE_CHECKING:
    from seasonboard.answers.lists import Lists

Values = Mapping[str, str]
"""Column → what stands there, in the words of the store; empty where nothing does."""

DAY, MOMENT = "%Y-%m-%d", "%Y-%m-%dT%H:%M"


class Holds(Enum):
    """What a field takes."""

    TEXT = "text"
    DAY = "a day, as 2026-11-14"
    MOMENT = "a day and a time, as 2026-11-14T18:30"
    WORD = "one of a closed list of words"
    LINE = "a line of a list of the store"


@dataclass(frozen=True, slots=True)
class Field:
    """One line of a form.

    Attributes:
        column: Its column in the store; problems of a column are told under it.
        title: How it is called on the screen.
        holds: What it takes.
        words: The closed list, of a word.
        finds: The list of the store, of a line.
        given: What narrows that list: its parameter → the column whose value it is.
        is_required: Whether it may be left empty.
        takes_others: Whether another word than those of the list may stand, as it is typed.
        hint: What it takes, in more words than `holds` has.
    """

    column: str
    title: str
    holds: Holds = Holds.TEXT
    words: tuple[str, ...] = ()
    finds: str = ""
    given: Mapping[str, str] = field(default_factory=dict)
    is_required: bool = False
    takes_others: bool = False
    hint: str = ""

    @property
    def is_choice(self) -> bool:
        """Say whether it is chosen from a list."""
        return self.holds in {Holds.WORD, Holds.LINE}


@dataclass(frozen=True, slots=True)
class FormLists:
    """What proposals are made from: the lists of the store, and the instant it is now."""

    lists: "Lists"
    now: datetime

    def moment(self, **of: str) -> str:
        """Return now in the department of a team, an athlete or a guard; else as it is here."""
        zone = self.lists.time_zone(**of)
        local = self.now.astimezone(ZoneInfo(zone) if zone else None)
        return local.strftime(MOMENT)

    def day(self, **of: str) -> str:
        """Return today, as `moment`."""
        return self.moment(**of).partition("T")[0]


def _nothing(_values: Values, _desk: FormLists) -> Mapping[str, str]:
    return {}


def _no_entry(_values: Values, _shown: Values) -> Entry:
    raise NotImplementedError


def _no_remark(_values: Values, _desk: FormLists) -> str:
    return ""


@dataclass(frozen=True, slots=True)
class Form:
    """One kind of record.

    Attributes:
        title: What is recorded.
        fields: Its lines, in their order.
        entry: Makes the entry of values, and of what is shown for them; a form that writes nothing
            has none.
        propose: Gives values for fields that nobody has touched; asks the store.
        remark: Says what is worth a look before saving; asks the store.
        key: The column that must be new; empty where a record is changed.
    """

    title: str
    fields: tuple[Field, ...]
    entry: Callable[[Values, Values], Entry] = _no_entry
    propose: Callable[[Values, FormLists], Mapping[str, str]] = _nothing
    remark: Callable[[Values, FormLists], str] = _no_remark
    key: str = ""


def cells(values: Values, *columns: str, key: str = "") -> dict[str, str | None]:
    """Return the cells of a row; one without its key is left to make its own."""
    return {name: values.get(name, "") for name in columns if name != key or values.get(name)}


def fitting(typed: str, words: Sequence[str]) -> tuple[tuple[str, ...], int]:
    """Return the words of a list that fit what is typed, and how many of them fit best.

    The word itself fits best, then words that begin so, then those of which a part begins so, then
    those that hold it; without any, the nearest.
    """
    from seasonboard.terms import nearest

    wanted = " ".join(typed.casefold().split())
    ranked = sorted((rank, place) for place, word in enumerate(words)
                    if (rank := _rank(wanted, word.casefold())) is not None)  # fmt: skip
    if not ranked:
        near = nearest(typed, list(words))
        return ((near,), 0) if near else ((), 0)
    best = sum(rank == ranked[0][0] for rank, _ in ranked)
    return tuple(words[place] for _, place in ranked), best


def _rank(wanted: str, word: str) -> int | None:
    if word == wanted:
        return 0
    if word.startswith(wanted):
        return 1
    parts = word.replace("/", " ").replace("-", " ").split()
    if any(part.startswith(wanted) for part in parts):
        return 2
    return 3 if wanted in word else None
