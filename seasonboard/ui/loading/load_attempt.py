"""One reading of the files, and what came of it."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from seasonboard.errors import IntakeError, SeasonboardError
from seasonboard.ui.app.bug_report import written_down
from seasonboard.ui.loading.load_dialog import BoardDialog, LoadStopped, ShownPlan
from seasonboard.ui.loading.load_questions import LoadQuestion, question_of
from seasonboard.ui.loading.target import LoadTarget

FAILED = "The files could not be loaded through a mistake in the program; nothing was written."
MOVED = "The store or the files changed since the plan was shown; look at it again."


@dataclass(frozen=True, slots=True)
class LoadOutcome:
    """What came of it: a plan to agree to, a question, or a load that was written.

    `sentences` stand beside it, `number` is that of the load when it was written.
    """

    shown: ShownPlan | None = None
    question: LoadQuestion | None = None
    sentences: tuple[str, ...] = ()
    number: int = 0


def attempt_load(target: LoadTarget, paths: Sequence[Path], dialog: BoardDialog) -> LoadOutcome:
    """Read files, and write them when the dialog agrees; never raises."""
    try:
        is_written = target.load(paths, dialog)
        if is_written:
            number = target.number()
            return LoadOutcome(dialog.shown, sentences=tuple(dialog.summary), number=number)
    except LoadStopped as stopped:
        return LoadOutcome(sentences=(stopped.what,))
    except IntakeError as refused:
        return LoadOutcome(question=question_of(refused, dialog.answers))
    except SeasonboardError as refused:
        return LoadOutcome(question=LoadQuestion((refused.what, refused.hint), ()))
    except Exception as bug:  # noqa: BLE001 - a bug here must not end the board
        failed = written_down(bug, "loading files", told=FAILED)
        return LoadOutcome(question=LoadQuestion((failed.what, failed.hint), ()))
    return _unwritten(dialog)


def _unwritten(dialog: BoardDialog) -> LoadOutcome:
    """Return what came of a load that wrote nothing into the store, though nothing refused it."""
    shown = dialog.shown
    if dialog.agreed is None or shown is None:
        return LoadOutcome(shown)
    if dialog.agreed != shown:
        return LoadOutcome(shown, sentences=(MOVED,))
    said = f"Nothing was written: {shown.plan.why_nothing}"
    return LoadOutcome(sentences=(said, *dialog.summary))
