"""What may be shown to outsiders: the door to everything about small counts.

`Release` holds counts, sums and what is published; `feasible` says what a reader can work out,
`leaks` which small counts that gives away, `hide` what to hide, `masked` the release without it.
"""

from seasonboard.stats.hiding import hide, masked
from seasonboard.stats.leaking import Leak, leaks
from seasonboard.stats.published import (
    Between,
    Derived,
    Hidden,
    Item,
    Limits,
    Method,
    Rate,
    Ratio,
    Rounded,
    Shown,
)
from seasonboard.stats.ranges import Range, feasible
from seasonboard.stats.rates import PER
from seasonboard.stats.released import (
    THRESHOLD,
    Equation,
    Policy,
    PolicyError,
    Release,
    adds_up,
)

__all__ = [
    "PER",
    "THRESHOLD",
    "Between",
    "Derived",
    "Equation",
    "Hidden",
    "Item",
    "Leak",
    "Limits",
    "Method",
    "Policy",
    "PolicyError",
    "Range",
    "Rate",
    "Ratio",
    "Release",
    "Rounded",
    "Shown",
    "adds_up",
    "feasible",
    "hide",
    "leaks",
    "masked",
]
