"""The keys that hold on every screen of the board."""

from textual.binding import Binding, BindingType

from seasonboard.answers.questions import WITH_SCREENS

APP_BINDINGS: list[BindingType] = [
    *(
        Binding(
            board.key,
            f"show_board('{board.name}')",
            board.title,
            show=False,
            tooltip=board.asks,
            id=f"board.{board.name}",
        )
        for board in WITH_SCREENS
    ),
    Binding(
        "f",
        "find_anything",
        "find all",
        show=False,
        tooltip="Find an athlete, guard, session, department or team",
        id="app.find_anything",
    ),
    Binding(
        "d",
        "next_theme",
        "theme",
        show=False,
        tooltip="Dark, light, or for a projector",
        id="app.next_theme",
    ),
    Binding(
        "question_mark",
        "help",
        "help",
        key_display="?",
        tooltip="What is on this screen",
        id="app.help",
    ),
    Binding(
        "comma",
        "settings",
        "settings",
        show=False,
        key_display=",",
        tooltip="What the board starts with: store, season, theme, screen",
        id="app.settings",
    ),
    Binding("q", "quit", "quit", tooltip="Leave the board", id="app.quit"),
    Binding(
        "ctrl+q",
        "quit",
        "quit",
        show=False,
        priority=True,
        tooltip="Leave the board",
        id="app.quit_anywhere",
    ),
    Binding(
        "ctrl+p",
        "command_palette",
        "palette",
        key_display="^p",
        show=True,
        priority=True,
        tooltip="Find an action by its name",
        id="app.command_palette",
    ),
]
