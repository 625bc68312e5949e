"""Copying and saving: the key, and the windows that ask how and where."""

from dataclasses import replace
from functools import partial
from pathlib import Path

from textual import work
from textual.screen import Screen

from seasonboard.answers import words
from seasonboard.answers.source import AnswerSource
from seasonboard.errors import SeasonboardError
from seasonboard.saving import files, tables
from seasonboard.ui.app.bug_report import outcome_of
from seasonboard.ui.keys import bindings, key
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
from seasonboard.ui.windows.chooser import Choice, ChooserPrompt, choose
from seasonboard.ui.windows.value_entry import EntryScreen, ValuePrompt

ALL = 2_000_000_000
"""Rows fetched when all are wanted."""
_MUCH = 74_000
"""Bytes that terminals commonly take at once; larger copies may be cut without a word."""
MOVED = "The curtain was moved meanwhile; nothing was saved."
MAY_FAIL = "Some terminals forbid programs to copy: if pasting gives nothing, save a file."
FAILED = "This could not be saved through a mistake in the program."
_FILE_WORDS = {"table": "rows", "picture": "picture", "page": "page"}


class SavableScreen(Screen[None]):
    """A screen whose table, picture and page can be copied or saved."""

    BINDINGS = bindings(
        key("e", "save", "copy or save", "Copy or save what is shown here", "screen.save",
            is_quiet=True),
    )  # fmt: skip
    answer_source: AnswerSource

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
        prompt = ChooserPrompt("copy or save", choices)
        choose(self.app, prompt, partial(self._choose_rows, offer))

    def _choose_rows(self, offer: SaveOffer, name: str) -> None:
        """Ask whether all rows are meant, where not all are shown."""
        choice = next(one for one in save_choices(offer) if one.name == name)
        table = offer.table
        shown = table.shown if table and choice.of == "table" else None
        if shown is None or not shown.is_cut:
            self._ask_path(offer, choice)
            return
        choices = [
            Choice("all", f"all {words.plural(shown.matching, 'row')}"),
            Choice("shown", f"only the {words.whole(len(shown.rows))} shown"),
        ]
        prompt = ChooserPrompt("Which rows?", choices)
        choose(self.app, prompt, partial(self._ask_path, offer, choice))

    def _ask_path(self, offer: SaveOffer, choice: SaveChoice, which: str = "all") -> None:
        """Ask where to, unless it is copied."""
        if which == "shown" and offer.table and offer.table.shown:
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
        prompt = ChooserPrompt(f"{clean(' and '.join(there))}: there already", choices)

        def decided(is_replaced: str) -> None:
            if is_replaced == "yes":
                self._give(offer, choice, path, may_replace=True)

        choose(self.app, prompt, decided)

    @work(thread=True, group="saving")
    def _give(
        self, offer: SaveOffer, choice: SaveChoice, path: Path | None, *, may_replace: bool = False
    ) -> None:
        save = partial(self._save, offer, choice, path, may_replace=may_replace)
        self.call_later(self._tell_outcome, outcome_of(save, choice.label, told=FAILED))

    def _save(
        self, offer: SaveOffer, choice: SaveChoice, path: Path | None, *, may_replace: bool
    ) -> tuple[str, str | None]:
        """Make what is wanted, and write it; return what is said, and what is to be copied."""
        extra = offer.extra_file(choice)
        if extra is not None and path is not None:
            target = SaveTarget(path, may_replace, offer.about, partial(self._check, offer))
            text = f"Saved: {choice.label.removeprefix('save ')}, to {path}. {extra.write(target)}"
            return text.rstrip(), None
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
            return f"Copied: {what}. {large}{MAY_FAIL}", text
        assert path is not None  # noqa: S101 - only a table is copied
        contents = {path: file_bytes(offer, choice, about, rows)}
        if choice.name == "csv":
            contents[files.beside_about(path)] = about.text().encode()
        files.save(contents, may_replace=may_replace)
        return f"Saved: {what}, to {' and '.join(map(str, contents))}.", None

    def _check(self, offer: SaveOffer) -> None:
        """Refuse what was begun before the curtain was moved."""
        if self.answer_source.is_covered != offer.about.is_covered:
            raise files.SavingError(MOVED, "Save again.")

    def _tell_outcome(self, outcome: tuple[str, str | None] | SeasonboardError) -> None:
        """Say what came of saving, and copy what is to be copied; or why nothing came of it."""
        if isinstance(outcome, SeasonboardError):
            text = f"{outcome.what} {outcome.hint}"
            self.notify(clean(text), markup=False, timeout=10, severity="error")
            return
        text, copied = outcome
        if copied is not None:
            self.app.copy_to_clipboard(copied)
        self.notify(clean(text), markup=False, timeout=10)
