"""The shapes of fields that forms share, and the label of what they write."""

from enum import StrEnum

from seasonboard.ui.forms.form import Field, Holds, Values

ATHLETE = Field("athlete", "athlete", Holds.LINE, finds="athletes", is_required=True)
KIND = Field("kind", "guard kind", Holds.LINE, finds="kinds", is_required=True)


def word(column: str, title: str, words: type[StrEnum], *, needed: bool = False) -> Field:
    """Return a field for one word of a closed list."""
    listed = tuple(one.value for one in words)
    return Field(column, title, Holds.WORD, listed, is_required=needed)


def line(column: str, title: str, finds: str, **given: str) -> Field:
    """Return a field for a line of a list; `given` is what narrows it, as in `Field`."""
    return Field(column, title, Holds.LINE, finds=finds, given=given)


def needed_line(column: str, title: str, finds: str) -> Field:
    """Return a field for a line of a list that must be chosen."""
    return Field(column, title, Holds.LINE, finds=finds, is_required=True)


def day(column: str, title: str, *, needed: bool = False) -> Field:
    """Return a field for a day."""
    return Field(column, title, Holds.DAY, is_required=needed)


def moment(column: str, title: str) -> Field:
    """Return a field for a day and a time, which every row needs."""
    return Field(column, title, Holds.MOMENT, is_required=True)


def label(what: str, values: Values, shown: Values, *columns: str) -> str:
    """Return what an entry is called in the log: what it is, then cells as they were shown."""
    told = (shown.get(one) or values.get(one, "") for one in columns)
    return ", ".join((what, *(one for one in told if one)))
