"""The keys that hold on every screen of the board."""

from seasonboard.answers.questions import WITH_SCREENS
from seasonboard.ui.key_bindings import bindings, key

_FIND = "Find an athlete, guard, session, department or team"
_SETTINGS = "What the board starts with: store, season, theme, screen"
_PALETTE = "Find an action by its name"
APP_BINDINGS = bindings(
    *(
        key(one.key, f"show_board('{one.name}')", one.title, one.asks, f"board.{one.name}",
            show=False)
        for one in WITH_SCREENS
    ),
    key("f", "find_anything", "find all", _FIND, "app.find_anything", show=False),
    key("d", "next_theme", "theme", "Dark, light, or for a projector", "app.next_theme",
        show=False),
    key("question_mark", "help", "help", "What is on this screen", "app.help", display="?"),
    key("comma", "settings", "settings", _SETTINGS, "app.settings", show=False, display=","),
    key("q", "quit", "quit", "Leave the board", "app.quit"),
    key("ctrl+q", "quit", "quit", "Leave the board", "app.quit_anywhere", show=False,
        priority=True),
    key("ctrl+p", "command_palette", "palette", _PALETTE, "app.command_palette", display="^p",
        priority=True),
)  # fmt: skip
