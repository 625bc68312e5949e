"""The keys of a screen at its foot; where they need more than one line they get it."""

from rich.cells import cell_len
from rich.style import Style
from rich.text import Text
from textual import events
from textual.app import ComposeResult
from textual.binding import ActiveBinding
from textual.geometry import Size
from textual.screen import Screen
from textual.widgets import Footer


class KeyLine(Footer):
    """Every key that is shown, with its word: none is scrolled out of sight."""

    def __init__(self) -> None:
        """Show the keys close together, the palette's among the others."""
        super().__init__(compact=True, show_command_palette=False)

    def compose(self) -> ComposeResult:
        """Hold nothing: the line is drawn as one text."""
        return iter(())

    def bindings_changed(self, screen: Screen[object]) -> None:
        """Draw anew when other keys hold."""
        if screen is self.screen:
            self.refresh(layout=True)

    def _shown(self) -> list[ActiveBinding]:
        """Return one binding an action, those that are shown."""
        active = reversed(self.screen.active_bindings.values())
        shown = {one.binding.action: one for one in active if one.binding.show}
        return list(shown.values())[::-1]

    def _lines(self, width: int) -> list[list[tuple[str, str, str]]]:
        """Return key, word and action of each, line by line."""
        lines: list[list[tuple[str, str, str]]] = [[]]
        used = 0
        for active in self._shown():
            key = self.app.get_key_display(active.binding)
            word = active.binding.description
            need = cell_len(key) + cell_len(word) + 2
            if lines[-1] and used + need - 1 > width:
                lines.append([])
                used = 0
            lines[-1].append((key, word, active.binding.key))
            used += need
        return lines

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:  # noqa: ARG002
        """Return as many lines as the keys need."""
        return len(self._lines(max(1, width)))

    def render(self) -> Text:
        """Return the keys with their words."""
        colours = self.app.theme_variables
        strong = Style.parse(f"bold {colours['footer-key-foreground']}")
        quiet = Style.parse(colours["footer-description-foreground"])
        text = Text(no_wrap=True)
        for number, line in enumerate(self._lines(max(1, self.size.width))):
            text.append("\n" if number else "")
            for place, (key, word, pressed) in enumerate(line):
                meta = Style.from_meta({"pressed": pressed})
                text.append(" " if place else "").append(key, strong + meta)
                text.append(f" {word}", quiet + meta)
        return text

    def on_click(self, event: events.Click) -> None:
        """Do what the key under the mouse does."""
        pressed = event.style.meta.get("pressed")
        if pressed:
            self.app.simulate_key(str(pressed).split(",")[0])
