"""What a kept mapping still says of a sheet whose headings changed."""

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class CarriedAnswers:
    """What a kept mapping says of a sheet whose headings changed.

    Attributes:
        mapping: Its name.
        columns: Column → headings that are still there, joined with a plus.
        constants: Column → value for all rows.
        dates: The order of day and month.
        gone: Column → its heading that is there no more.
        new: The headings that are new.
    """

    mapping: str
    columns: Mapping[str, str] = field(default_factory=dict)
    constants: Mapping[str, str] = field(default_factory=dict)
    dates: str | None = None
    gone: Mapping[str, str] = field(default_factory=dict)
    new: tuple[str, ...] = ()

    def sentence(self) -> str:
        """Return what changed, in words."""
        parts = []
        if self.gone:
            parts.append(f"gone: {', '.join(f'“{one}”' for one in self.gone.values())}")
        if self.new:
            parts.append(f"new: {', '.join(f'“{one}”' for one in self.new)}")
        changed = "; ".join(parts) or "another title"
        return (
            f"is read as the mapping “{self.mapping}” says, but its headings changed ({changed})."
        )
