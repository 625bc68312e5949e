"""Everything that can be typed in, by its key in the menu."""

from collections.abc import Mapping

from textual.screen import ModalScreen

from seasonboard.answers.source import AnswerSource
from seasonboard.scope import Scope
from seasonboard.ui.forms import record_forms
from seasonboard.ui.forms.form import InputForm
from seasonboard.ui.forms.form_screen import FormScreen
from seasonboard.ui.forms.read_only import NotKept
from seasonboard.ui.loading.screen import LoadScreen
from seasonboard.ui.log.menu import LogForm


def form_screen(form: InputForm, answer_source: AnswerSource, **start: str) -> ModalScreen[bool]:
    """Return the screen of a form; where nothing can be typed in, one that says why."""
    if answer_source.entry_writer is None or answer_source.is_covered:
        return NotKept(answer_source)
    return FormScreen(form, answer_source, start)


def load_screen(answer_source: AnswerSource, *_: object) -> ModalScreen[bool]:
    """Return the screen that loads files; its plan shows names, so not while they are covered."""
    return NotKept(answer_source) if answer_source.is_covered else LoadScreen(answer_source)


def draw_screen(answer_source: AnswerSource, scope: Scope, *_: object) -> ModalScreen[bool]:
    """Return the screen that draws turns; where nothing can be written, one that says why."""
    if answer_source.entry_writer is None or answer_source.is_covered:
        return NotKept(answer_source)
    from seasonboard.ui.forms.draw_form import DrawForm

    return DrawForm(answer_source, scope)


_LISTED = (
    ("injury", "i", "Injury", record_forms.INJURY, "who was hurt, where, and in which session"),
    ("return", "r", "Return from an injury", record_forms.RETURN, "who is back, and since when"),
    ("order", "o", "New order", record_forms.ORDER, "for whom, which guard, and why"),
    ("stage", "g", "Stage of an order", record_forms.STAGE, "which order, how far, and since when"),
    ("build", "b", "Build record", record_forms.BUILD,
        "lot, profile, printer, scan and inspection of a guard"),
    ("session", "s", "Session", record_forms.SESSION, "which team, when, game or practice"),
    ("offer", "p", "Offer", record_forms.OFFER, "to whom, and which guard"),
    ("answer", "w", "Answer to an offer", record_forms.ANSWER, "what was said to an offer"),
    ("jump", "j", "Jumped turn", record_forms.JUMP, "which guard was made out of turn, and why"),
    ("decision", "d", "Decision", record_forms.DECISION, "what was decided, and until when"),
    ("question", "k", "Question in advance", record_forms.QUESTION,
        "what is compared, fixed before the season"),
    ("done", "x", "Decision done", record_forms.DONE, "which decision is done"),
    ("printer", "n", "Printer", record_forms.PRINTER, "whose it is, and hours it runs a week"),
    ("allotment", "m", "Prints a week", record_forms.ALLOTMENT, "what a department gets"),
    ("rule", "v", "Rule of a sport", record_forms.RULE, "whether a guard may be worn in games"),
    ("look", "e", "Look at guards after", record_forms.LOOK_AFTER,
        "sessions worn or weeks, by a department's own rule"),
)  # fmt: skip
BY_NAME: Mapping[str, InputForm] = {name: form for name, _, _, form, _ in _LISTED}
"""The descriptions of the forms."""


def _log_form(name: str, key: str, title: str, form: InputForm, asks: str) -> LogForm:
    return LogForm(name, key, title, asks, lambda source, *_: form_screen(form, source))


FORMS = (
    *(_log_form(*one) for one in _LISTED),
    LogForm("draw", "t", "Draw turns", "whose preventive guard comes first", draw_screen),
    LogForm("files", "f", "Files", "tables, exports and bundles", load_screen),
)
"""Every form, in the order of the menu."""
