"""The lines of a sheet: what each key does to the athlete under the cursor."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from rich.text import Text
from textual import events
from textual.message import Message

from seasonboard.answers.log import marks
from seasonboard.answers.log.parts import LogAthlete, LogSheet, Mark
from seasonboard.answers.log.sheet_entry import tally
from seasonboard.terms import Part
from seasonboard.ui.layout.blocks import Block, Paper
from seasonboard.ui.layout.format import clean
from seasonboard.ui.log import sheet_page
from seasonboard.ui.log.sheet_bindings import LINE_KEYS
from seasonboard.ui.log.sheet_typing import Key, TypedText, Typing
from seasonboard.ui.widgets.page import Page
from seasonboard.ui.windows.chooser import Choice, ChooserPrompt, choose

STAYS = (
    "A row that is recorded can be changed but not taken out. "
    "u on any screen takes the whole last entry back."
)
_JUMPS = {Typing.JUMP, Typing.JERSEY}
NOT_PLAYING = "Only who takes part wears a guard or has minutes: press f or l first."


class SheetLines(Page):
    """Everybody of a session, a line each, changed by single keys.

    `problems` are sentences that stand under an athlete; while it `is_busy` no key does anything.
    """

    BINDINGS = LINE_KEYS

    @dataclass
    class Changed(Message):
        """A line was changed."""

    @dataclass
    class Moved(Message):
        """What is said around the lines is something else: another line, a prompt, a count."""

    def __init__(self, early: list[events.Key]) -> None:
        """Begin without a sheet; `early` keys are pressed once it is there."""
        super().__init__()
        self.sheet: LogSheet | None = None
        self.marks: dict[str, Mark] = {}
        self.is_complete: bool | None = None
        self.touched: frozenset[str] = frozenset()
        self.problems: Mapping[str, Sequence[str]] = {}
        self.is_busy = False
        self._typed: TypedText | None = None
        self._message = ""
        self._early = early
        self._mark_before: Mark | None = None
        self._before_full: tuple[dict[str, Mark], frozenset[str]] | None = None

    @property
    def athletes(self) -> Sequence[LogAthlete]:
        """Return everybody on the sheet."""
        return self.sheet.athletes if self.sheet else ()

    @property
    def here(self) -> LogAthlete | None:
        """Return the athlete under the cursor."""
        block = self.block
        return next((one for one in self.athletes if block and one.athlete == block.name), None)

    def _set(self, one: LogAthlete, mark: Mark) -> None:
        self.marks[one.athlete] = mark
        self.touched |= {one.athlete}
        self.problems = {who: of for who, of in self.problems.items() if who != one.athlete}
        self._before_full = None
        self.post_message(self.Changed())
        self.show()

    def show(self) -> None:
        """Draw the lines, and have the counts and the line under the cursor told anew."""
        self.draw = self._lines
        self._show_around()

    def _lines(self, paper: Paper) -> Sequence[Block]:
        if self.sheet is None:
            return []
        shown = sheet_page.SheetShown(
            self.sheet, self.marks, self.touched, self.problems, self.is_complete
        )
        return sheet_page.sheet_page(shown, paper)

    def _show_around(self) -> None:
        self.post_message(self.Moved())

    def go_to(self, number: int) -> None:
        """Put the cursor on a line."""
        super().go_to(number)
        self._show_around()

    def _turn(self, by: int) -> None:
        super()._turn(by)
        self._show_around()

    @property
    def counts(self) -> str:
        """Return how many are full, limited and out, and what is only proposed."""
        if self.sheet is None:
            return ""
        counts = f"{sheet_page.tally_words(tally(self.marks))} · "
        counts += f"c {sheet_page.WEAR[self.is_complete]}"
        proposed = sheet_page.proposed_words(self.sheet, self.touched)
        return f"{counts} · {proposed}" if proposed else counts

    @property
    def detail(self) -> Text:
        """Return what is said under the lines: a prompt, a message, the line under the cursor."""
        one = self.here
        prompt = self._typed.prompt if self._typed is not None else ""
        detail = Text(f" {clean(self._message or prompt)}", style="bold")
        is_jumping = self._typed is not None and self._typed.what in _JUMPS
        if one is not None and not self._message and (is_jumping or not prompt):
            words = clean(sheet_page.detail_words(one, self.marks[one.athlete]))
            detail.append(f" · {words}" if prompt else words, "not bold")
        return detail

    def tell(self, message: str) -> None:
        """Say something under the lines, until the next key."""
        self._message = message
        self._show_around()

    async def on_key(self, event: events.Key) -> None:
        """Take what is typed after a key that waits for more; digits alone jump to a jersey.

        Keys that arrive in one go, as over a slow line, each do their work before the next one.
        """
        if self.sheet is None and event.key not in {"escape", "q"}:
            self._early.append(event)
            event.stop()
            return
        if self.is_busy:
            event.stop()
        if self.is_busy or self.sheet is None:
            return
        if self._message:
            self.tell("")
        letter = event.character or ""
        is_done = self._typed is not None and self._type(self._typed, event)
        if not is_done and letter.isascii() and letter.isdigit():
            is_done = self._type(TypedText(Typing.JERSEY), event)
        bound = self.screen.active_bindings.get(event.key)
        if not is_done and bound is not None and bound.enabled:
            event.stop()
            await self.app.run_action(bound.binding.action, bound.node)

    def press_early(self) -> None:
        """Press anew what was pressed before the sheet was there."""
        for event in self._early:
            self.app.post_message(events.Key(event.key, event.character))
        self._early.clear()

    def _type(self, before: TypedText, event: events.Key) -> bool:
        """Take a key into what is typed; say whether that was all it meant."""
        typed, key = before.after(event)
        if key is not Key.OTHER:
            event.stop()
        self._typed = typed if key is Key.TYPED else None
        if key is Key.TYPED:
            self._take(typed)
        elif key is Key.LEFT and self._mark_before is not None and self.here is not None:
            self._set(self.here, self._mark_before)
        self._show_around()
        return key is not Key.OTHER

    def _take(self, typed: TypedText) -> None:
        """Do what the typed text says so far."""
        one = self.here
        has_jersey = any((who.jersey or "").startswith(typed.text) for who in self.athletes)
        if typed.what is Typing.JERSEY and not has_jersey:  # the last digit begins another
            self._typed = typed = TypedText(Typing.JERSEY, typed.text[-1:])
        if typed.what in _JUMPS:
            self._jump(typed.text)
            return
        if one is None:
            return
        mark = self.marks[one.athlete]
        if typed.what is Typing.REASON:
            self._typed = None
            mark = replace(mark, reason=marks.REASONS[typed.text].value)
        elif typed.what is Typing.MINUTES:
            mark = replace(mark, minutes=float(typed.text) if typed.text.strip(".") else None)
        else:
            mark = replace(mark, plays=int(typed.text) if typed.text else None)
        self._set(one, mark)

    def _jump(self, text: str) -> None:
        athlete = marks.found_by(text, self.athletes)
        if athlete is not None:
            self.go_to_name(athlete.athlete)
        elif text:
            self.tell(f"Nobody here with “{text}”; ⌫ takes a letter back.")

    def _wait_for(self, what: Typing, before: Mark | None = None) -> None:
        self._typed = TypedText(what)
        self._mark_before = before
        self._show_around()

    def action_part(self, word: str) -> None:
        """Write a part down; for other than full, wait for the reason."""
        one = self.here
        if one is not None:
            self._set(one, marks.with_part(self.marks[one.athlete], Part(word)))
            if word != Part.FULL:
                self._wait_for(Typing.REASON)

    def action_not_recorded(self) -> None:
        """Write nothing about the athlete."""
        one = self.here
        if one is not None and one.is_recorded:
            self.tell(STAYS)
        elif one is not None:
            self._set(one, marks.without_part(self.marks[one.athlete]))

    def action_number(self, what: str) -> None:
        """Wait for minutes or plays."""
        one = self.here
        if one is not None and self.marks[one.athlete].part in {None, Part.OUT}:
            self.tell(NOT_PLAYING)
        elif one is not None:
            self._wait_for(Typing(what), self.marks[one.athlete])

    def action_jump(self) -> None:
        """Wait for a jersey number or letters of a name."""
        self._wait_for(Typing.JUMP)

    def action_worn(self) -> None:
        """Take the next choice of guards."""
        one = self._who_wears()
        if one is not None:
            self._set(one, marks.next_worn(one, self.marks[one.athlete]))

    def turn_complete(self) -> None:
        """Say that wear is recorded for everybody, or no longer."""
        self.is_complete = not self.is_complete
        self.post_message(self.Changed())
        self.show()

    def _who_wears(self) -> LogAthlete | None:
        """Return the athlete under the cursor, if they can wear a guard; else say why not."""
        one = self.here
        if one is None:
            return None
        if not one.guards:
            self.tell("No guard of this athlete was there by then.")
        elif self.marks[one.athlete].part in {None, Part.OUT}:
            self.tell(NOT_PLAYING)
        else:
            return one
        return None

    def action_choose_worn(self) -> None:
        """Choose among an athlete's guards."""
        one = self._who_wears()
        if one is None:
            return
        none = ""
        choices = [Choice(none, "none"), *(Choice(g.guard, g.words, g.guard) for g in one.guards)]
        worn = self.marks[one.athlete].worn or frozenset({none})
        title = f"Worn by {clean(one.name)}"

        def take(*guards: str) -> None:
            chosen = frozenset(guards) - {none}
            self._set(one, replace(self.marks[one.athlete], worn=chosen))

        prompt = ChooserPrompt(title, choices, worn, several=True, everything=none)
        choose(self.app, prompt, take)

    def action_all_full(self) -> None:
        """Make everybody full; the second time, take that back."""
        if self.sheet is None:
            return
        if self._before_full is not None:
            self.marks, self.touched = self._before_full
            self._before_full = None
        else:
            before = (self.marks, self.touched)
            self.marks = marks.all_full(self.sheet, self.marks)
            self.touched = frozenset(self.marks)
            self._before_full = before
            self.tell("Everybody full; F again takes that back.")
        self.problems = {}
        self.post_message(self.Changed())
        self.show()
