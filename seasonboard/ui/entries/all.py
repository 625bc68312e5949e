"""Everything that can be typed in, by its key in the menu."""

from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING, Any

from textual.screen import Screen

from seasonboard.ui.entries import forms_decisions, forms_orders, forms_people
from seasonboard.ui.entries.form_screen import FormScreen
from seasonboard.ui.entries.not_kept import NotKept

if TYPE_CHECKING:
    from collections.abc import Callable

    from seasonboard.answers.board import Asker
    from seasonboard.ui.entries.parts import Form


@dataclass(frozen=True, slots=True)
class FormName:
    """One line of the menu: how it is called, its key, its title, and what makes its screen."""

    name: str
    key: str
    title: str
    screen: "Callable[[Asker], Screen[Any]]"


def form_screen(form: "Form", asker: "Asker", **start: str) -> Screen[Any]:
    """Return the screen of a form; where nothing is written to, one that says so."""
    return NotKept() if asker.keeper is None else FormScreen(form, asker, start)


def _form(name: str, key: str, form: "Form") -> FormName:
    return FormName(name, key, form.title, partial(form_screen, form))


FORMS: tuple[FormName, ...] = (
    _form("injury", "i", forms_people.INJURY),
    _form("return", "r", forms_people.RETURN),
    _form("order", "o", forms_orders.ORDER),
    _form("stage", "g", forms_orders.STAGE),
    _form("session", "s", forms_people.SESSION),
    _form("offer", "p", forms_orders.OFFER),
    _form("answer", "w", forms_orders.ANSWER),
    _form("decision", "d", forms_decisions.DECISION),
    _form("done", "x", forms_decisions.DONE),
)
"""Every form, in the order of the menu."""
