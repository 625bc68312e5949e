"""The keys of screens and windows: one line each, with the word at the foot and its help."""

from textual.binding import Binding, BindingType

_WRITTEN = {"enter": "↵", "space": "␣", "slash": "/", "backspace": "⌫", "minus,delete": "-"}
"""Keys that are written by a sign."""


def key(  # noqa: PLR0913 - each says one thing of it
    keys: str,
    action: str,
    label: str,
    tooltip: str,
    name: str,
    *,
    is_quiet: bool = False,
    display: str | None = None,
    priority: bool = False,
) -> Binding:
    """Return a key.

    Args:
        keys: Its name; several with commas.
        action: What it does.
        label: The word beside it at the foot of the screen.
        tooltip: What it does, in help.
        name: By which a person can give it another key.
        is_quiet: Whether it is left out at the foot; help lists it.
        display: How it is written; without it by its sign or name.
        priority: Whether it holds before the keys of what has the focus.
    """
    return Binding(
        keys,
        action,
        label,
        show=not is_quiet,
        key_display=display or _WRITTEN.get(keys),
        priority=priority,
        tooltip=tooltip,
        id=name or None,
    )


def bindings(*keys: Binding) -> list[BindingType]:
    """Return the keys of a screen, in the order of its foot and help."""
    return list(keys)
