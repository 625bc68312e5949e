"""What a question may be asked with: described beside its options, read by `ask`."""

import shlex
from collections.abc import Callable, Iterator
from dataclasses import MISSING, Field, dataclass, field, fields, replace
from datetime import date
from enum import StrEnum
from typing import Any, get_args, get_type_hints


@dataclass(frozen=True, slots=True)
class Option:
    """One option of a question.

    Attributes:
        flag: How it is typed: `--by`.
        help: One line.
        name: The attribute of the options that it sets.
        kind: str, int, float, bool (a flag), or a `StrEnum` whose words may be chosen.
        default: What holds without it.
        parse: Makes the value from the text that was typed, where its kind alone does not.
        metavar: What stands for the value in help.
    """

    flag: str
    help: str
    name: str = ""
    kind: type = str
    default: Any = None
    parse: Callable[[str], Any] | None = None
    metavar: str | None = None


def option(default: Any, flag: str, text: str, **more: Any) -> Any:  # noqa: ANN401 - a field's value
    """Describe a field of options: its default, how it is typed, what it does in a line.

    Args:
        default: What holds without it.
        flag: How it is typed, as `--by`.
        text: What it does, for help.
        more: `parse` and `metavar` of the `Option`.
    """
    return field(default=default, metadata={"option": Option(flag, text, **more)})


def options_of(options: type) -> Iterator[Option]:
    """Yield the options of a class of options, in the order of its fields."""
    hints = get_type_hints(options)
    for one in fields(options):
        described: Option | None = one.metadata.get("option")
        if described is not None:
            yield _whole(described, one, hints[one.name])


def _whole(described: Option, one: Field[Any], hint: Any) -> Option:  # noqa: ANN401 - any type
    kinds = [kind for kind in get_args(hint) if kind is not type(None)] or [hint]
    kind = kinds[0] if described.parse is None and isinstance(kinds[0], type) else str
    default = None if one.default is MISSING else one.default
    return replace(described, name=one.name, kind=kind, default=default)


def as_typed(options: Any) -> tuple[str, ...]:  # noqa: ANN401 - any options
    """Return options as they are typed on the command line; of a file no path is told."""
    texts = []
    for one in options_of(type(options)) if options is not None else ():
        value = getattr(options, one.name)
        if value is None or value == one.default:
            continue
        text = f"{value:g}" if isinstance(value, float) else shlex.quote(str(value))
        is_plain = isinstance(value, (str, int, float, date))
        texts.append(one.flag if value is True else f"{one.flag} {text if is_plain else '…'}")
    return tuple(texts)


def words_of(kind: type) -> list[str]:
    """Return the words that may be chosen of a `StrEnum`; empty for any other kind."""
    return [word.value for word in kind] if issubclass(kind, StrEnum) else []
