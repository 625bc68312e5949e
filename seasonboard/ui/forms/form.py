"""What a form is made of: its fields as data, and how its values become an entry."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from enum import Enum
from zoneinfo import ZoneInfo

from seasonboard.answers.lists import Lists
from seasonboard.entries import Entry
from seasonboard.terms import nearest

FormValues = Mapping[str, str]
"""Column → what stands there, in the words of the store; empty where nothing does."""

MOMENT = "%Y-%m-%dT%H:%M"


class FieldKind(Enum):
    """What a field takes."""

    TEXT = "text"
    DAY = "a day, as 2026-11-14"
    MOMENT = "a day and a time, as 2026-11-14T18:30"
    WORD = "one of a closed list of words"
    LINE = "a line of a list of the store"


@dataclass(frozen=True, slots=True)
class FormField:
    """One line of a form: a column, of a stored table where there is a `table`.

    A word is one of `words`, or what is typed where it `takes_others`; a line is one of the list
    that the store `finds`, narrowed by parameter → the column whose value it is. `hint` says what
    it takes in more words than `holds` has. One without a `table` only helps to fill in others.
    """

    column: str
    title: str
    holds: FieldKind = FieldKind.TEXT
    words: tuple[str, ...] = ()
    finds: str = ""
    narrowed_by: Mapping[str, str] = field(default_factory=dict)
    is_required: bool = False
    takes_others: bool = False
    hint: str = ""
    table: str = ""

    @property
    def is_choice(self) -> bool:
        """Say whether it is chosen from a list."""
        return self.holds in {FieldKind.WORD, FieldKind.LINE}


@dataclass(frozen=True, slots=True)
class FormLists:
    """What proposals are made from: the lists of the store, and the instant it is now."""

    lists: Lists
    now: datetime

    def moment(self, **of: str) -> str:
        """Return now in the department of a team, an athlete or a guard; else as it is here."""
        zone = self.lists.time_zone(**of)
        local = self.now.astimezone(ZoneInfo(zone) if zone else None)
        return local.strftime(MOMENT)

    def day(self, **of: str) -> str:
        """Return today, as `moment`."""
        return self.moment(**of).partition("T")[0]


@dataclass(frozen=True, slots=True)
class InputForm:
    """What can be typed in: fields, and what becomes of their values.

    Attributes:
        what: What the log of loads calls a record.
        named_by: The columns whose values tell one record from another in that log.
        propose: Gives values for fields that nobody has touched; asks the store.
        remark: Says what is worth a look before saving; asks the store.
        also: Gives cells beside the typed ones, table by table.
        beside: Gives whole rows of other tables.
        key: The column that must be new; empty where a record is changed.
    """

    title: str
    fields: tuple[FormField, ...]
    what: str = ""
    named_by: tuple[str, ...] = ()
    propose: Callable[[FormValues, FormLists], Mapping[str, str]] = lambda *_: {}
    remark: Callable[[FormValues, FormLists], str] = lambda *_: ""
    also: Callable[[FormValues], Mapping[str, Mapping[str, str]]] = lambda _: {}
    beside: Callable[[FormValues], Mapping[str, Sequence[Mapping[str, str]]]] = lambda _: {}
    key: str = ""

    def entry(self, values: FormValues, shown: FormValues) -> Entry:
        """Return the rows that the values make; how they are `shown` names the entry.

        A row without its key is left to make its own.
        """
        rows: dict[str, dict[str, str | None]] = {}
        for one in self.fields:
            if one.table and (one.column != self.key or values.get(one.column)):
                rows.setdefault(one.table, {})[one.column] = values.get(one.column, "")
        for table, cells in self.also(values).items():
            rows[table] |= cells
        label = (self.what, *(shown.get(one) or values.get(one, "") for one in self.named_by))
        typed = {name: [row] for name, row in rows.items()}
        return Entry(", ".join(filter(None, label)), {**typed, **self.beside(values)})


def fitting(typed: str, words: Sequence[str]) -> tuple[tuple[str, ...], int]:
    """Return the words of a list that fit what is typed, and how many of them fit best.

    The word itself fits best, then words that begin so, then those of which a part begins so, then
    those that hold it; without any, the nearest.
    """
    wanted = " ".join(typed.casefold().split())
    ranked = sorted((rank, place) for place, word in enumerate(words)
                    if (rank := _rank(wanted, word.casefold())) is not None)  # fmt: skip
    if not ranked:
        near = nearest(typed, list(words))
        return ((near,), 0) if near else ((), 0)
    best = sum(rank == ranked[0][0] for rank, _ in ranked)
    return tuple(words[place] for _, place in ranked), best


def _rank(wanted: str, word: str) -> int | None:
    parts = word.replace("/", " ").replace("-", " ").split()
    begins = (part.startswith(wanted) for part in parts)
    fits = (word == wanted, word.startswith(wanted), any(begins), wanted in word)
    return fits.index(True) if True in fits else None
