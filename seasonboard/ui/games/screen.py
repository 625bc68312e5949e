"""Games: how many games are played before an injury?"""

from collections.abc import Sequence
from dataclasses import replace
from functools import partial
from typing import ClassVar

from textual.binding import BindingType

from seasonboard.answers.games.parts import Clock, GamesAnswer, GamesOptions
from seasonboard.answers.questions import GAMES
from seasonboard.errors import ScopeError
from seasonboard.ui.board.answer_screen import Request
from seasonboard.ui.board.board_screen import BoardScreen
from seasonboard.ui.board.row_sources import RowSource
from seasonboard.ui.games.page import WRONG_NAME, games_page
from seasonboard.ui.keys import key
from seasonboard.ui.layout.blocks import Block, Opens, Paper, What
from seasonboard.ui.pictures.plotext_trend import warm
from seasonboard.ui.widgets.page import Page
from seasonboard.ui.windows.value_entry import EntryScreen, ValuePrompt, ValueStep

_ENOUGH = "what four in five play"
_STEPS = (ValueStep("−1", "up", -1), ValueStep("+1", "down", 1))


class GamesScreen(BoardScreen[GamesAnswer]):
    """Survival curves by what was worn at each tick, and the numbers read from them."""

    QUESTION = GAMES
    HELP = (
        "The share of sites still uninjured after each game, guarded (⠒⠒ whole) and bare (⠂⠂ "
        "dotted), ⠒⠂ where both run as one; shaded or dashed, their limits. Below the curves stand "
        "how many were at risk. A site counts as guarded in the games in which a guard was worn. "
        "The clock counts the athlete's own games, sessions of any kind, plays or minutes in "
        "games, or the team's games. "
        "At the same mix, both curves weigh like athletes the same; as played, they are the two "
        "groups as they were. The wrong tally is drawn dotted (┅ ever, ┄ never guarded), so that "
        "it is recognised elsewhere."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        key("k", "clock", "clock", "Count games, sessions, season games, plays, minutes",
            "games.clock",
            is_quiet=True),
        key("n", "at_risk", "at risk", "How many must be at risk", "games.at_risk", is_quiet=True),
        key("h", "horizon", "horizon", "Up to which game means are taken", "games.horizon",
            is_quiet=True),
        key("a", "same_mix", "same mix", "Curves as played, or at the same mix of athletes",
            "games.same_mix", is_quiet=True),
        key("w", "wrong_tally", "wrong tally",
            "Show the misleading tally: ever against never guarded", "games.wrong_tally",
            is_quiet=True),
    ]  # fmt: skip

    options: GamesOptions
    is_same_mix = True
    _is_tally_new = False

    def ask_for(self, request: Request) -> GamesAnswer:
        """Ask for the curves."""
        warm()
        return super().ask_for(request)

    def draw(self, answer: GamesAnswer, paper: Paper) -> Sequence[Block]:
        """Draw the page."""
        return games_page(answer, paper, is_same_mix=self.is_same_mix)

    def rows_of(self, opens: Opens) -> RowSource | None:
        """Return who was at risk at a tick, or what every screen can open."""
        if opens.what is not What.TICK or self.answer is None:
            return super().rows_of(opens)
        scope, options = self.answer.summary.scope, self.answer.options
        return "At risk", partial(self.answer_source.tick_rows, scope, options, int(opens.key))

    def action_clock(self) -> None:
        """Take the next clock."""
        self.ask_with_next("clock", list(Clock))

    def action_same_mix(self) -> None:
        """Draw the curves at the same mix of athletes, or again as played."""
        why = "nothing is followed yet" if self.answer is None else self.answer.one_mix.why
        if why:
            self.notify(f"No curves at the same mix: {why}.", markup=False, timeout=5)
            return
        self.is_same_mix = not self.is_same_mix
        self._draw_anew()

    def action_wrong_tally(self) -> None:
        """Ask for the misleading tally too, or no more."""
        self._is_tally_new = not self.options.naive
        self.ask_with(replace(self.options, naive=not self.options.naive))

    def _draw_anew(self) -> None:
        """Draw; the cursor goes to the misleading tally when it was just called up."""
        super()._draw_anew()
        if self._is_tally_new and self.answer is not None and self.answer.ever_never is not None:
            self._is_tally_new = False
            self.query_one(Page).go_to_name(WRONG_NAME)

    def action_at_risk(self) -> None:
        """Ask how many must be at risk for a curve to start."""
        explain = "A curve starts at the first game with this many sites at risk."
        entry = ValuePrompt("At risk at least", str(self.options.min_at_risk), explain, _STEPS)

        def read(text: str) -> GamesOptions:
            return replace(self.options, min_at_risk=_number(text))

        self.app.push_screen(EntryScreen(entry, read, _stepped), self.ask_with)

    def action_horizon(self) -> None:
        """Ask up to which tick the means are taken."""
        present = self.options.horizon
        text = _ENOUGH if present is None else str(present)
        explain = f"Means are taken up to this game. Empty: {_ENOUGH}."
        entry = ValuePrompt("Horizon", text, explain, _STEPS)

        def read(text: str) -> GamesOptions:
            is_open = text.strip() in {"", _ENOUGH}
            return replace(self.options, horizon=None if is_open else _number(text))

        self.app.push_screen(EntryScreen(entry, read, self._step_horizon), self.ask_with)

    def _step_horizon(self, text: str, by: int) -> str:
        if text.strip().isdecimal() or self.answer is None or self.answer.horizon is None:
            return _stepped(text, by)
        return str(max(1, self.answer.horizon + by))


def _stepped(text: str, by: int) -> str:
    return str(max(1, int(text) + by)) if text.strip().isdecimal() else "1"


def _number(text: str) -> int:
    plain = text.strip()
    if not (plain.isascii() and plain.isdecimal() and 1 <= int(plain) < 1_000_000):
        raise ScopeError(f"“{text}” is not a count.", "Write a whole number, 1 or more.")
    return int(plain)


SCREEN = GamesScreen
