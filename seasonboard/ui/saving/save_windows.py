"""Copying and saving: the key, and the windows that ask how and where."""

from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, ClassVar

from textual import work
from textual.binding import Binding, BindingType
from textual.message import Message
from textual.screen import Screen

from seasonboard.answers import words
from seasonboard.answers.source import AnswerSource
from seasonboard.errors import SeasonboardError
from seasonboard.saving import files, tables
from seasonboard.ui.app.bug_report import written_down
from seasonboard.ui.layout.format import clean
from seasonboard.ui.saving.offers import (
    ExtraFile,
    SaveChoice,
    SaveOffer,
    SaveTarget,
    count_words,
    file_bytes,
    files_written,
    save_choices,
)
from seasonboard.ui.windows.chooser import Choice, Chooser, ChooserPrompt
from seasonboard.ui.windows.value_entry import EntryScreen, ValuePrompt

if TYPE_CHECKING:
    from textual.notifications import SeverityLevel

ALL = 2_000_000_000
"""Rows fetched when all are wanted."""
_MUCH = 74_000
"""Bytes that terminals commonly take at once; larger copies may be cut without a word."""
MOVED = "The curtain was moved meanwhile; nothing was saved."
MAY_FAIL = "Some terminals forbid programs to copy: if pasting gives nothing, save a file."


_FILE_WORDS = {"table": "rows", "picture": "picture", "page": "page"}


class SavableScreen(Screen[None]):
    """A screen whose table, picture and page can be copied or saved."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            "e",
            "save",
            "copy or save",
            show=False,
            tooltip="Copy or save what is shown here",
            id="screen.save",
        ),
    ]
    answer_source: AnswerSource

    @dataclass
    class Given(Message):
        """What came of saving: a sentence, with text for the clipboard; or why nothing did."""

        outcome: str | SeasonboardError
        copied: str | None = None

    def offer(self) -> SaveOffer | None:
        """Return what can be saved now; None: nothing is there yet."""
        return None

    def extra_files(self) -> tuple[ExtraFile, ...]:
        """Return files of their own that are offered beside the page."""
        return ()

    def action_save(self) -> None:
        """Ask what is to be saved, and how."""
        offer = self.offer()
        if offer is None or not save_choices(offer):
            self.notify("There is nothing to save here yet.", markup=False, timeout=3)
            return
        title = offer.table.title if offer.table else ""
        choices = [
            Choice(one.name, one.label, title if one.of == "table" and title else one.detail)
            for one in save_choices(offer)
        ]
        asked = ChooserPrompt("copy or save", choices, frozenset())
        self.app.push_screen(Chooser(asked), partial(self._chosen, offer))

    def _chosen(self, offer: SaveOffer, values: tuple[str, ...] | None) -> None:
        if not values:
            return
        choice = next(one for one in save_choices(offer) if one.name == values[0])
        table = offer.table
        shown = table.shown if table and choice.of == "table" else None
        if shown is None or not shown.is_cut:
            self._ask_path(offer, choice, ("all",))
            return
        choices = [
            Choice("all", f"all {words.plural(shown.matching, 'row')}"),
            Choice("shown", f"only the {words.whole(len(shown.rows))} shown"),
        ]
        asked = ChooserPrompt("Which rows?", choices, frozenset())
        self.app.push_screen(Chooser(asked), partial(self._ask_path, offer, choice))

    def _ask_path(
        self, offer: SaveOffer, choice: SaveChoice, which: tuple[str, ...] | None
    ) -> None:
        """Ask where to, unless it is copied."""
        if not which:
            return
        if which == ("shown",) and offer.table and offer.table.shown:
            shown = offer.table.shown
            offer = replace(offer, table=replace(offer.table, fetch=lambda _: shown))
        if not choice.ending:
            self._give(offer, choice, None)
            return
        extra = offer.extra_file(choice)
        word = extra.word if extra else f"{offer.word} {_FILE_WORDS[choice.of]}"
        whose = offer.department if extra is None or extra.names_whom else ""
        path = files.proposed(whose, offer.about.through, word, choice.ending)
        hint = "Nothing is overwritten without asking."
        entry = EntryScreen(
            ValuePrompt(choice.label, str(path), hint),
            extra.read_path if extra else lambda text: files.read_path(text, choice.ending),
            lambda text, _: text,
        )
        self.app.push_screen(entry, partial(self._path_chosen, offer, choice))

    def _path_chosen(self, offer: SaveOffer, choice: SaveChoice, path: Path | None) -> None:
        if path is None:
            return
        there = [one.name for one in files_written(choice, path) if one.exists()]
        if not there:
            self._give(offer, choice, path)
            return
        choices = [Choice("no", "keep it"), Choice("yes", "replace it")]
        asked = ChooserPrompt(f"{clean(' and '.join(there))}: there already", choices, frozenset())

        def decided(values: tuple[str, ...] | None) -> None:
            if values == ("yes",):
                self._give(offer, choice, path, may_replace=True)

        self.app.push_screen(Chooser(asked), decided)

    @work(thread=True, group="saving")
    def _give(
        self, offer: SaveOffer, choice: SaveChoice, path: Path | None, *, may_replace: bool = False
    ) -> None:
        try:
            self.post_message(self._save(offer, choice, path, may_replace=may_replace))
        except SeasonboardError as problem:
            self.post_message(self.Given(problem))
        except Exception as bug:  # noqa: BLE001 - a bug in saving must not end the board
            text = "This could not be saved through a mistake in the program."
            self.post_message(self.Given(written_down(bug, choice.label, told=text)))

    def _save(
        self, offer: SaveOffer, choice: SaveChoice, path: Path | None, *, may_replace: bool
    ) -> Given:
        """Make what is wanted, and write it; runs in a thread."""
        extra = offer.extra_file(choice)
        if extra is not None and path is not None:
            target = SaveTarget(path, may_replace, offer.about, partial(self._check, offer))
            text = f"Saved: {choice.label.removeprefix('save ')}, to {path}. {extra.write(target)}"
            return self.Given(text.rstrip())
        about, rows, what = offer.about, None, f"The {choice.of}"
        if choice.of == "table" and offer.table:
            request = replace(offer.table.request, limit=ALL, offset=0)
            rows = offer.table.fetch(request)
            what = count_words(rows, request, is_covered=about.is_covered)
            about = replace(about, title=rows.title, answer="", rows=what)
        self._check(offer)
        if rows is not None and path is None:
            text = tables.as_tsv(rows)
            large = "It is large: a terminal may cut it. " if len(text.encode()) > _MUCH else ""
            return self.Given(f"Copied: {what}. {large}{MAY_FAIL}", text)
        assert path is not None  # noqa: S101 - only a table is copied
        contents = {path: file_bytes(offer, choice, about, rows)}
        if choice.name == "csv":
            contents[files.beside_about(path)] = about.text().encode()
        files.save(contents, may_replace=may_replace)
        return self.Given(f"Saved: {what}, to {' and '.join(str(one) for one in contents)}.")

    def _check(self, offer: SaveOffer) -> None:
        """Refuse what was begun before the curtain was moved."""
        if self.answer_source.is_covered != offer.about.is_covered:
            raise files.SavingError(MOVED, "Save again.")

    def on_savable_screen_given(self, message: Given) -> None:
        """Say what came of it."""
        message.stop()
        outcome = message.outcome
        severity: SeverityLevel = "information"
        if isinstance(outcome, SeasonboardError):
            outcome, severity = f"{outcome.what} {outcome.hint}", "error"
        elif message.copied is not None:
            self.app.copy_to_clipboard(message.copied)
        self.notify(clean(outcome), markup=False, timeout=10, severity=severity)
