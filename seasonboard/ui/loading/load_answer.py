"""One line that can be taken while files are loaded."""

from dataclasses import dataclass

from seasonboard.load_options import LoadOptions


@dataclass(frozen=True, slots=True)
class LoadAnswer:
    """One line, and what is wished of the load when it is taken.

    Attributes:
        shown: The line.
        beside: What stands beside it.
        options: What is wished then.
        fills: The value to be typed first, by its name among the constants; empty takes none.
        example: How that value may be typed.
        without: What is wished when the line is left out; None where that cannot be.
        meanings: What to choose from first.
        asks: What is asked then.
        action: What is done instead: `write` or `back`.
    """

    shown: str
    beside: str
    options: LoadOptions
    fills: str = ""
    example: str = ""
    without: LoadOptions | None = None
    meanings: tuple["LoadAnswer", ...] = ()
    asks: str = ""
    action: str = ""
