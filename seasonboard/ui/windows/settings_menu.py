"""The settings as lists to choose from: which one, then its value."""

from dataclasses import replace
from pathlib import Path

from seasonboard.answers.questions import WITH_SCREENS
from seasonboard.errors import ScopeError, SeasonboardError
from seasonboard.scope import Scope, ScopeValues, with_values
from seasonboard.settings import THEMES, Settings
from seasonboard.ui.app.app import SeasonboardApp
from seasonboard.ui.layout.format import clean
from seasonboard.ui.themes import BY_NAME
from seasonboard.ui.windows.chooser import Choice, Chooser, ChooserPrompt, choose
from seasonboard.ui.windows.scope_choices import ALL
from seasonboard.ui.windows.value_entry import EntryScreen, ValuePrompt

NOTHING = ScopeValues({}, None, None, sessions=0, guards=0, kinds_made=(), covers={})
LAST = "the one opened last"
LAST_SHOWN = "the one shown last"
_NOT_SET = {"season": ALL, "screen": LAST_SHOWN}
_TITLES = {"store": "Store", "season": "Season", "theme": "Theme", "screen": "First screen"}


def show_settings(app: SeasonboardApp, at: str = "store") -> None:
    """Ask which setting is to be changed, until that is left."""
    held = app.settings
    now = {
        "store": held.store or LAST,
        "season": held.season or ALL,
        "theme": held.theme,
        "screen": held.screen or LAST_SHOWN,
    }
    choices = [Choice(name, title, now[name]) for name, title in _TITLES.items()]
    prompt = ChooserPrompt("Settings: what the board starts with", choices, frozenset({at}))
    choose(app, prompt, lambda name: _change(app, name, now[name]))


def _change(app: SeasonboardApp, name: str, now: str) -> None:
    """Ask for the value of one setting; then show them all again."""
    if name == "store":
        entry = ValuePrompt(
            "Which store?", app.settings.store, "A file; empty for the one opened last."
        )
        app.push_screen(EntryScreen(entry, read_store), lambda value: _take(app, name, value))
        return
    listed = {
        "season": [ALL, *(season.value for season in _scope_values(app).values.get("season", ()))],
        "theme": list(THEMES),
        "screen": [LAST_SHOWN, *(board.name for board in WITH_SCREENS)],
    }[name]
    prompt = ChooserPrompt(_TITLES[name], [Choice(v, v) for v in listed], frozenset({now}))
    app.push_screen(Chooser(prompt), lambda v: _take(app, name, v[0] if v else None))


def _scope_values(app: SeasonboardApp) -> ScopeValues:
    return app.answer_source.scope_values if app.answer_source is not None else NOTHING


def read_store(text: str) -> str:
    """Return the full path of a store, or nothing for none.

    Raises:
        SeasonboardError: There is no such file.
    """
    if not text.strip():
        return ""
    path = Path(text.strip()).expanduser()
    if not path.is_file():
        raise SeasonboardError(f"There is no file {path}.", "Name a store, such as season.duckdb.")
    return str(path.resolve())


def _take(app: SeasonboardApp, name: str, value: str | None) -> None:
    if value is not None:
        setting = "" if value == _NOT_SET.get(name) else value
        app.settings = replace(app.settings, **{name: setting})
        try:
            app.keep(app.settings)
        except SeasonboardError as problem:
            app.notify(clean(problem.hint), title=clean(problem.what), markup=False, timeout=15)
        if name == "theme":
            app.theme = BY_NAME[value]
        if name == "season" and app.scope is not None:
            app.scope = in_season(app.scope, app.settings, _scope_values(app))
    show_settings(app, name)


def in_season(scope: Scope, settings: Settings, known: ScopeValues) -> Scope:
    """Return the scope with the season of the settings; without it where it is not known."""
    try:
        return with_values(scope, "season", [settings.season] if settings.season else [], known)
    except ScopeError:
        return scope
