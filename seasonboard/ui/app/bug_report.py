"""What happens when something fails that should not: it is written down, and told in a sentence."""

import traceback
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path
from typing import TypeVar

from seasonboard.errors import SeasonboardError

LOG = "failures.log"
ANSWER_FAILED = "This answer failed through a mistake in the program; the other screens go on."
PAGE_FAILED = "This page failed through a mistake in the program; the other screens go on."
OPENING_FAILED = "The store could not be opened through a mistake in the program."
ResultT = TypeVar("ResultT")


def outcome_of(
    act: Callable[[], ResultT], what: str, *, told: str = ANSWER_FAILED
) -> ResultT | SeasonboardError:
    """Return what `act` gives, or why it gives nothing; a mistake in the program is written down.

    Nothing it raises may end the board: whatever it is, it is told in a sentence.
    """
    try:
        return act()
    except SeasonboardError as problem:
        return problem
    except Exception as bug:  # noqa: BLE001 - told in a sentence, like every other reason
        return written_down(bug, what, told=told)


def written_down(bug: BaseException, what: str, *, told: str = ANSWER_FAILED) -> SeasonboardError:
    """Write a failure with its details into the log, and return what is shown: `told`, and where.

    The log holds the place in the program and the message, no rows; it stays on this machine.
    """
    details = "".join(traceback.format_exception(bug))
    try:
        path = _log()
        with path.open("a", encoding="utf-8") as out:
            out.write(f"{datetime.now(UTC):%Y-%m-%d %H:%M:%S}Z {what}\n{details}\n")
        hint = f"The details are in {path}."
    except OSError as error:
        hint = f"The details could not be written down: {error}."
    return SeasonboardError(told, hint)


def _log() -> Path:
    from platformdirs import user_log_path

    return user_log_path("seasonboard", appauthor=False, ensure_exists=True) / LOG
