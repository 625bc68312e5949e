"""Everything that can be typed in, by its key in the menu."""

from typing import TYPE_CHECKING

from textual.screen import ModalScreen

from seasonboard.ui.forms import decision_forms, injury_forms, order_forms
from seasonboard.ui.forms.form_screen import FormScreen
from seasonboard.ui.forms.read_only import NotKept
from seasonboard.ui.loading.screen import LoadScreen
from seasonboard.ui.log.menu import LogForm

if TYPE_CHECKING:
    from collections.abc import Mapping

    from seasonboard.answers.source import AnswerSource
    from seasonboard.ui.forms.form import InputForm


def form_screen(
    form: "InputForm", answer_source: "AnswerSource", **start: str
) -> ModalScreen[bool]:
    """Return the screen of a form; where nothing can be typed in, one that says why."""
    if answer_source.entry_writer is None or answer_source.is_covered:
        return NotKept(answer_source)
    return FormScreen(form, answer_source, start)


def load_screen(answer_source: "AnswerSource") -> ModalScreen[bool]:
    """Return the screen that loads files; its plan shows names, so not while they are covered."""
    return NotKept(answer_source) if answer_source.is_covered else LoadScreen(answer_source)


_LISTED: tuple[tuple[str, str, str, "InputForm", str], ...] = (
    ("injury", "i", "Injury", injury_forms.INJURY, "who was hurt, where, and in which session"),
    ("return", "r", "Return from an injury", injury_forms.RETURN, "who is back, and since when"),
    ("order", "o", "New order", order_forms.ORDER, "for whom, which guard, and why"),
    ("stage", "g", "Stage of an order", order_forms.STAGE, "which order, how far, and since when"),
    ("session", "s", "Session", injury_forms.SESSION, "which team, when, game or practice"),
    ("offer", "p", "Offer", order_forms.OFFER, "to whom, and which guard"),
    ("answer", "w", "Answer to an offer", order_forms.ANSWER, "what was said to an offer"),
    ("decision", "d", "Decision", decision_forms.DECISION, "what was decided, and until when"),
    ("done", "x", "Decision done", decision_forms.DONE, "which decision is done"),
)
BY_NAME: "Mapping[str, InputForm]" = {name: form for name, _, _, form, _ in _LISTED}
"""The descriptions of the forms."""


def _named(name: str, key: str, title: str, form: "InputForm", asks: str) -> LogForm:
    return LogForm(
        name, key, title, asks, lambda answer_source, *_: form_screen(form, answer_source)
    )


FORMS: tuple[LogForm, ...] = (
    *(_named(*each) for each in _LISTED),
    LogForm(
        "files",
        "f",
        "Files",
        "tables, exports and bundles",
        lambda answer_source, *_: load_screen(answer_source),
    ),
)
"""Every form, in the order of the menu."""
