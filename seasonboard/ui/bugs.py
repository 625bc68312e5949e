"""What happens when an answer fails that should not: it is written down, and told in a sentence."""

import traceback
from datetime import UTC, datetime
from pathlib import Path

from seasonboard.errors import SeasonboardError

LOG = "failures.log"


def written_down(bug: BaseException, what: str) -> SeasonboardError:
    """Write a failure with its details into the log, and return the sentence that is shown.

    The log holds the place in the program and the message, no rows; it stays on this machine.
    """
    told = "".join(traceback.format_exception(bug))
    try:
        path = _log()
        with path.open("a", encoding="utf-8") as out:
            out.write(f"{datetime.now(UTC):%Y-%m-%d %H:%M:%S}Z {what}\n{told}\n")
        hint = f"The details are in {path}; the other screens go on."
    except OSError as error:
        hint = f"The details could not be written down ({error}); the other screens go on."
    return SeasonboardError("This answer failed through a mistake in the program.", hint)


def _log() -> Path:
    from platformdirs import user_log_path

    return user_log_path("seasonboard", ensure_exists=True) / LOG
