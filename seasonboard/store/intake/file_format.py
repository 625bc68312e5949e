"""How the cells of one file are written, as far as it is known."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from seasonboard.store.intake.synonyms import Synonyms, shipped_synonyms


@dataclass(frozen=True, slots=True)
class WrittenAs:
    """What is known of the writing of one file.

    Attributes:
        synonyms: Spellings, units, sizes, marks for missing values.
        dates: `dmy`, `mdy`, `ymd` or None: settled from each column.
        decimal: `comma`, `point` or None: settled from each column.
        units: Column → unit of numbers written without one.
        time: The time of instants written without one, `HH:MM`.
        from_1904: Whether day numbers count from 1904.
    """

    synonyms: Synonyms = field(default_factory=shipped_synonyms)
    dates: str | None = None
    decimal: str | None = None
    units: Mapping[str, str] = field(default_factory=dict)
    time: str | None = None
    from_1904: bool = False
