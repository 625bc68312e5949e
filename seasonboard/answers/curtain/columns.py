"""What stands behind the curtain: which columns of the questions name a person, and how.

Of stored columns their description says it; of those that only questions have it stands here. Text
in a column that is named nowhere is covered: a new question shows nothing by oversight.
"""

from collections.abc import Mapping

from seasonboard.stored_column import Cover
from seasonboard.stored_tables import TABLES

COVERED = "covered"
"""What stands in the place of text that may name a person."""

A_STORE = "a store"
"""What is open, in words that do not tell the file's own name."""

_KEYS_DERIVED = {
    "first_guard": "guard",
    "remade_by": "guard",
    "successor": "guard",
    "guards": "guard",
    "open_injury": "injury",
}
KEYS = {
    **{
        column.name: column.refers[1] if column.refers else column.name
        for table in TABLES.values()
        for column in table.columns
        if column.curtain is Cover.CODED
    },
    **_KEYS_DERIVED,
}
"""Columns of keys, and what they are keys of: keys may carry names, so they become codes."""

MIXED = {
    ("table_name", "key"): {
        "roster": "athlete",
        "guards": "guard",
        "stages": "guard",
        "wear": "guard",
        "injuries": "injury",
        "offers": "offer",
        "decisions": "decision",
    },
    ("what", "item"): {"stage": "guard", "offer": "offer", "injury": "injury", "return": "injury"},
}
"""Columns whose keys are of what another column says; of what is not listed they are plain."""

_DERIVED: Mapping[Cover, tuple[str, ...]] = {
    Cover.CODED: tuple(_KEYS_DERIVED),
    Cover.SHOWN: (
        *("after", "back_in", "because", "belongs", "clock", "comparison", "counted", "days_lost"),
        *("days_out", "department_name", "ending", "recurrence"),
        *("here", "injured", "last_part", "last_reason", "made_as", "open_area", "open_side"),
        *("parts", "counts_as", "successor_counts_as", "successor_reason", "returned_area"),
        *("state", "status", "table_name", "teams", "what", "why", "word", "worn"),
    ),
    Cover.SEARCHED: ("made_of", "in_session", "next_session", "stratum"),
    Cover.LEFT_OUT: ("next_label", "next_game_label"),
}
"""Columns that only questions have. Left out is text without which sentences read better."""

_SHOWN_IN = frozenset({("departments/teams", "name"), ("remakes/guards", "reason")})
"""Columns that are shown in one question, though their name says otherwise elsewhere."""


_COVERS = {name: cover for cover, names in _DERIVED.items() for name in names}
for _column in (column for table in TABLES.values() for column in table.columns):
    _COVERS[_column.name] = max(_column.curtain, _COVERS.get(_column.name, Cover.SHOWN))


def cover_of(question: str, column: str) -> Cover:
    """Return what the curtain does with text in a column of a question."""
    if (question, column) in _SHOWN_IN:
        return Cover.SHOWN
    return _COVERS.get(column, Cover.COVERED)


BY_PERSON = {
    "roster/athletes": ("athlete",),
    "roster/places": ("athlete",),
    "roster/guards": ("athlete", "guard"),
    "take_up/offers": ("athlete",),
    "orders/orders": ("guard",),
    "orders/of_group": ("guard",),
    "rows/injuries": ("injury",),
}
"""Questions whose rows come in the order of keys: in that of the codes, or the order would tell."""
