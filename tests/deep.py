"""How often a property is tried: a few times in every run, many times when asked for.

    SEASONBOARD_DEEP=1 .venv/bin/pytest

tries each property that loads a season twenty times as often, which takes most of an hour.
"""

import os

_TIMES = 20 if os.environ.get("SEASONBOARD_DEEP") else 1


def tries(few: int) -> int:
    """Return how many examples to look at."""
    return few * _TIMES
