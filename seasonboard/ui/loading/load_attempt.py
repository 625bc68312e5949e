"""One reading of the files, and what came of it."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from seasonboard.errors import IntakeError, SeasonboardError
from seasonboard.ui.app.bug_report import written_down
from seasonboard.ui.loading.load_dialog import LoadStopped, Shown, Talk
from seasonboard.ui.loading.load_questions import Asked, asked_of
from seasonboard.ui.loading.target import Target

FAILED = "The files could not be loaded through a mistake in the program; nothing was written."
MOVED = "The store or the files changed since the plan was shown; look at it again."


@dataclass(frozen=True, slots=True)
class Outcome:
    """What came of it: a plan to agree to, a question, or a load that was written.

    `told` are sentences beside it, `number` is that of the load when it was written.
    """

    shown: Shown | None = None
    asked: Asked | None = None
    told: tuple[str, ...] = ()
    number: int = 0


def attempted(target: Target, paths: Sequence[Path], talk: Talk) -> Outcome:
    """Read files, and write them when the talk agrees; never raises."""
    try:
        is_written = target.load(paths, talk)
        if is_written:
            return Outcome(talk.shown, told=tuple(talk.summary), number=target.number())
    except LoadStopped as stopped:
        return Outcome(told=(stopped.what,))
    except IntakeError as refused:
        return Outcome(asked=asked_of(refused, talk.answers))
    except SeasonboardError as refused:
        return Outcome(asked=Asked((refused.what, refused.hint), ()))
    except Exception as bug:  # noqa: BLE001 - a bug here must not end the board
        failed = written_down(bug, "loading files", told=FAILED)
        return Outcome(asked=Asked((failed.what, failed.hint), ()))
    return Outcome(talk.shown, told=(MOVED,) if talk.agreed is not None else ())
