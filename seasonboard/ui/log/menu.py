"""The Log: what can be written down on the board, a letter each."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date

from rich.text import Text
from textual.screen import ModalScreen

from seasonboard.answers.source import AnswerSource
from seasonboard.scope import Scope
from seasonboard.ui.forms.read_only import why_not
from seasonboard.ui.keys import bindings, key
from seasonboard.ui.windows.text_window import TextWindow


@dataclass(frozen=True, slots=True)
class LogForm:
    """One thing to write down: its name, its key in the Log, its title, what is asked, its screen.

    `screen` makes the screen from who answers, the scope, and today. The board asks anew when the
    screen gives True; one that says itself what was written posts `StoreChanged` and gives None.
    """

    name: str
    key: str
    title: str
    asks: str
    screen: Callable[[AnswerSource, Scope, date], ModalScreen[bool]]


def _attendance(answer_source: AnswerSource, scope: Scope, today: date) -> ModalScreen[bool]:
    from seasonboard.ui.log.sessions_screen import SessionsScreen

    return SessionsScreen(answer_source, scope, today)


def forms(*, is_kept: bool) -> tuple[LogForm, ...]:
    """Return what can be written down, in the order of the list; into the sample nothing can."""
    from seasonboard.ui.forms.all_forms import FORMS

    if not is_kept:
        return tuple(form for form in FORMS if form.name == "files")
    asks = "who took part, and in what guard"
    return (LogForm("attendance", "a", "Attendance", asks, _attendance), *FORMS)


_FOOT = "u on any screen takes the last entry back · Esc leaves"


class LogMenu(TextWindow[str | None]):
    """Lists what can be written down; gives the name of a form, or None for Esc."""

    HELP = "What can be written down. Each has its letter. Everything can be taken back with u."
    BINDINGS = bindings(key("escape,q", "dismiss(None)", "Leave", "Back to the page", "log.leave"))

    def __init__(self, listed: Sequence[LogForm]) -> None:
        """List the forms; where only files can be loaded, say why and what to do."""
        text = Text.assemble(("Log", "bold"), f"   {_FOOT}\n\n")
        if len(listed) == 1:
            text.append_text(why_not(is_covered=False)).append("\n\n")
        wide = max(len(form.title) for form in listed) + 2
        for form in listed:
            text.append(f" {form.key}  {form.title.ljust(wide)}", "bold").append(f"{form.asks}\n")
        text.rstrip()
        super().__init__(text)
        if len(listed) == 1:
            self._bindings.bind("k", "app.copy_sample", "Copy")
        for form in listed:
            self._bindings.bind(form.key, f"dismiss('{form.name}')", form.title)
