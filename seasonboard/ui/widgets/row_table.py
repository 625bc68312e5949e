"""The table of the rows behind a number."""

from typing import ClassVar

from rich.text import Text
from textual.binding import BindingType
from textual.widgets import DataTable

from seasonboard.ui.keys import key

_WALK = (
    ("down", "cursor_down", "Next", "To the next row"),
    ("up", "cursor_up", "Before", "To the row before"),
    ("left", "cursor_left", "Left", "The columns to the left"),
    ("right", "cursor_right", "Right", "The columns to the right"),
    ("pagedown", "page_down", "Page on", "A screenful on"),
    ("pageup", "page_up", "Page back", "A screenful back"),
    ("home", "scroll_top", "Top", "To the first row of this page"),
    ("end", "scroll_bottom", "End", "To the last row of this page"),
)


class RowTable(DataTable[Text], inherit_bindings=False):
    """A table walked through row by row, whose keys say what they do."""

    BINDINGS: ClassVar[list[BindingType]] = [
        key("enter", "select_cursor", "athlete", "Open all that was recorded of this row's athlete",
            "row_table.open"),
        *(
            key(keys, action, named, does, f"row_table.{action}", is_quiet=True)
            for keys, action, named, does in _WALK
        ),
    ]  # fmt: skip
