"""A start without a store, the first or one whose store is gone: the sample, or one's own."""

from rich.text import Text
from textual.widgets import Static

from seasonboard.ui.app.app import SeasonboardApp
from seasonboard.ui.keys import bindings, key
from seasonboard.ui.windows.chooser import Choice, Chooser, ChooserPrompt
from seasonboard.ui.windows.text_window import TextWindow

TOUR, SAMPLE, OWN, AGAIN = "tour", "sample", "own", "again"
_CHOICES = (
    Choice(TOUR, "Open the sample season, with a tour of five steps"),
    Choice(SAMPLE, "Open the sample season"),
    Choice(OWN, "Load my own season", "tables, workbooks, exports"),
)
HOW_TO_LOAD = """\
A season is a folder of tables: CSV, XLSX or Parquet, named after what they hold.

  seasonboard load FOLDER --store FILE      shows a plan, then asks
  seasonboard --store FILE                  opens the board on it

“seasonboard help load” says how; “seasonboard help tables” lists the tables."""


class HowToLoad(TextWindow[None]):
    """How a season of one's own is loaded."""

    BINDINGS = bindings(
        key("escape,enter", "dismiss", "Back", "Back to the choice", "how.back"),
        key("q", "app.quit", "Quit", "Leave the board", "how.quit"),
    )
    FOOT = "↵ goes back to the choice · q quits"

    def __init__(self) -> None:
        """Write it down."""
        super().__init__(Text.assemble(("Load your own season\n\n", "bold"), HOW_TO_LOAD))


def welcome(app: SeasonboardApp) -> None:
    """Ask what to begin with."""
    title, choices = "Welcome: there is no season yet", _CHOICES
    if app.missing is not None:
        title = f"Not there any more: {app.missing}. Is its drive connected?"
        choices = (Choice(AGAIN, "Leave, to put it back and start again"), *_CHOICES[1:])
    prompt = ChooserPrompt(title, choices, frozenset({choices[0].value}))

    def take(values: tuple[str, ...] | None) -> None:
        chosen = values[0] if values else AGAIN if app.missing else OWN
        if chosen == AGAIN:
            app.exit()
            return
        if chosen == OWN:
            _load_own(app)
            return
        app.is_first = False
        app.is_tour_due = chosen == TOUR
        app.query_one("#opening", Static).update(Text("\nopening …", style="bold"))
        app.open_store()

    app.push_screen(Chooser(prompt), take)


def _load_own(app: SeasonboardApp) -> None:
    """Show the screen that loads files into a first store, else how it is done elsewhere."""
    from seasonboard.ui.loading.screen import LoadScreen

    screen = HowToLoad() if app.maker is None else LoadScreen()
    app.push_screen(screen, lambda _: welcome(app) if app.is_first else None)
