"""An answer in the forms a person may ask it in."""

from collections.abc import Callable
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Output:
    """An answer in each form it is asked in, and the exit status: 1 calls for attention."""

    text: Callable[[], str]
    json: Callable[[], str]
    csv: Callable[[], str]
    status: int = 0
