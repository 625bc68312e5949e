"""The very first start, when there is no store: the sample season, or how to load one's own."""

from typing import TYPE_CHECKING, Any, ClassVar

from rich.text import Text
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.screen import ModalScreen
from textual.widgets import Static

from seasonboard.ui.widgets.lines import TooSmall
from seasonboard.ui.windows.chooser import Choice, Chooser, ChooserPrompt

if TYPE_CHECKING:
    from seasonboard.ui.app.app import SeasonboardApp

TOUR, SAMPLE, OWN = "tour", "sample", "own"
_CHOICES = (
    Choice(TOUR, "Open the sample season, with a tour of five steps"),
    Choice(SAMPLE, "Open the sample season"),
    Choice(OWN, "Load my own season", "tables, workbooks, exports"),
)
HOW_TO_LOAD = (
    "A season is a folder of tables: CSV, XLSX or Parquet, named after what they hold.",
    "",
    "  seasonboard load FOLDER --store FILE      shows a plan, then asks",
    "  seasonboard --store FILE                  opens the board on it",
    "",
    "“seasonboard help load” says how; “seasonboard help tables” lists the tables.",
)


class HowToLoad(ModalScreen[None]):
    """How a season of one's own is loaded."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape,enter", "dismiss", "Back", tooltip="Back to the choice", id="how.back"),
        Binding("q", "app.quit", "Quit", tooltip="Leave the board", id="how.quit"),
    ]

    def compose(self) -> ComposeResult:
        """Write it down."""
        text = Text("Load your own season\n\n", style="bold")
        with VerticalScroll(classes="window wide") as window:
            window.border_subtitle = "↵ goes back to the choice · q quits"
            yield Static(text.append("\n".join(HOW_TO_LOAD), "not bold"))
        yield TooSmall()


def welcome(app: "SeasonboardApp") -> None:
    """Ask what to begin with."""
    prompt = ChooserPrompt("Welcome: there is no season yet", _CHOICES, frozenset({TOUR}))

    def take(values: tuple[str, ...] | None) -> None:
        chosen = values[0] if values else OWN
        if chosen == OWN:
            app.push_screen(_loading(app), lambda _: welcome(app) if app.is_first else None)
            return
        app.is_first = False
        app.is_tour_due = chosen == TOUR
        app.query_one("#opening", Static).update(Text("\nopening …", style="bold"))
        app.open_store()

    app.push_screen(Chooser(prompt), take)


def _loading(app: "SeasonboardApp") -> ModalScreen[Any]:
    """Return the screen that loads files into a first store, else how it is done elsewhere."""
    if app.maker is None:
        return HowToLoad()
    from seasonboard.ui.loading.screen import LoadScreen

    return LoadScreen()
