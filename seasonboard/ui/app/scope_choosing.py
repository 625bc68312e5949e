"""The scope of the board, and how a part of it is changed in place."""

from functools import partial
from typing import TYPE_CHECKING, Any

from textual.app import App
from textual.reactive import var

from seasonboard.errors import ScopeError
from seasonboard.ui.layout.format import clean

if TYPE_CHECKING:
    from seasonboard.answers.source import AnswerSource
    from seasonboard.scope import Scope
    from seasonboard.settings import Settings
    from seasonboard.ui.board.board_screen import BoardScreen
    from seasonboard.ui.widgets.sentence import ScopeSentence


class ScopeChoosing(App[None]):
    """An app that holds a scope for all its screens."""

    scope: "var[Scope | None]" = var(None, init=False)
    answer_source: "AnswerSource | None" = None
    settings: "Settings"
    boards: "dict[str, BoardScreen[Any]]"
    """The screens of the board that were opened so far."""

    def watch_scope(self, scope: "Scope | None") -> None:
        """Hand a changed scope to every screen."""
        for screen in self.boards.values():
            screen.scope = scope

    def stop_asking(self) -> None:
        """Stop all that runs; every screen takes its question as stopped before it hears of it."""
        for screen in self.boards.values():
            screen.give_way()
        if self.answer_source is not None:
            self.answer_source.stop()

    def on_scope_sentence_chosen(self, message: "ScopeSentence.Chosen") -> None:
        """Change the part of the sentence that was chosen."""
        self._choose(message.part)

    def on_scope_sentence_all_again(self) -> None:
        """Take the scope that the board was opened with."""
        if self.answer_source is not None:
            self.scope = self.first_scope(self.answer_source)

    def first_scope(self, answer_source: "AnswerSource") -> "Scope":
        """Return the scope that the board opens with, in the season of the settings."""
        from seasonboard.ui.windows.settings_menu import in_season

        return in_season(answer_source.opening_scope(), self.settings, answer_source.scope_values)

    def _choose(self, part: str) -> None:
        """Open the window in which a part of the scope is changed."""
        from seasonboard.ui.windows.chooser import choose
        from seasonboard.ui.windows.scope_choices import THROUGH, question, through_entry

        if self.answer_source is None or self.scope is None:
            return
        scope, values = self.scope, self.answer_source.scope_values
        if part == THROUGH:
            self.push_screen(through_entry(scope, values), self._take_scope)
        else:
            prompt = question(part, scope, values, getattr(self.screen, "USES", None))
            choose(self, prompt, partial(self._take, part))

    def _take(self, part: str, *values: str) -> None:
        from seasonboard.ui.widgets.sentence import MORE
        from seasonboard.ui.windows.scope_choices import chosen

        if self.scope is None or self.answer_source is None:
            return
        if part == MORE:
            self._choose(values[0])
            return
        try:
            self.scope = chosen(part, values, self.scope, self.answer_source.scope_values)
        except ScopeError as problem:
            self.notify(clean(problem.hint), title=clean(problem.what), markup=False)

    def _take_scope(self, scope: "Scope | None") -> None:
        if scope is not None:
            self.scope = scope
