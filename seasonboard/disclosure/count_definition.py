"""What a published count counts, so that the same one and nested ones are known again."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass

from seasonboard.scope import Scope

_EVERYTHING = {("setting", "both"), ("purpose", "all"), ("outcome", "any")}


@dataclass(frozen=True, slots=True)
class CountDefinition:
    """What is counted, and of what: the parts of the scope but for “through”.

    A part that is not there means all there are. A team is named together with its department,
    else it is not known to lie within it.
    """

    what: str
    parts: tuple[tuple[str, tuple[str, ...]], ...] = ()

    @classmethod
    def of(
        cls,
        what: str,
        scope: Scope,
        *,
        but_for: Collection[str] = (),
        **narrower: str | Sequence[str],
    ) -> "CountDefinition":
        """Return a count within a scope, narrower in some parts: `department="LF"`.

        The parts `but_for` make no difference to it.
        """
        parts: dict[str, object] = {
            part: value
            for part, value in scope.resolved().items()
            if part not in {"through", "level", *but_for} and value is not None
        }
        return cls.within(what, {**parts, **narrower})

    @classmethod
    def within(cls, what: str, parts: Mapping[str, object]) -> "CountDefinition":
        """Return a count within parts, each one value, several, or None for all."""
        narrowed = {}
        for part, value in parts.items():
            values = [value] if isinstance(value, str) else value
            if isinstance(values, Sequence) and (part, *values) not in _EVERYTHING:
                narrowed[part.replace("_", " ")] = tuple(sorted({str(one) for one in values}))
        return cls(what, tuple(sorted(narrowed.items())))

    def widths(self) -> dict[str, frozenset[str]]:
        """Return the values of every part that is narrowed."""
        return {part: frozenset(values) for part, values in self.parts}

    def words(self) -> str:
        """Return it in words."""
        narrowed = "; ".join(f"{part} {', '.join(values)}" for part, values in self.parts)
        return f"{self.what} ({narrowed})" if narrowed else self.what


def narrowed_in(part: CountDefinition, whole: CountDefinition) -> tuple[str, ...] | None:
    """Return the parts of the scope in which `part` is narrower; None unless it lies within."""
    if part.what != whole.what:
        return None
    small, large = part.widths(), whole.widths()
    if any(name not in small or not small[name] <= values for name, values in large.items()):
        return None
    return tuple(name for name, values in small.items() if large.get(name) != values)
