"""The keys of screens and windows: a line each."""

from textual.binding import Binding, BindingType


def key(  # noqa: PLR0913 - each says one thing of it
    keys: str,
    action: str,
    label: str,
    does: str,
    name: str,
    *,
    show: bool = True,
    display: str | None = None,
    priority: bool = False,
) -> Binding:
    """Return a key: `label` stands at the foot, `does` in help; by `name` it can be remapped.

    Where it is not to `show`, only help lists it; `display` is how it is written.
    """
    return Binding(keys, action, label, show, display, priority, does, name)


def bindings(*keys: Binding) -> list[BindingType]:
    """Return the keys of a screen, in the order of its foot and help."""
    return list(keys)
