"""What may be shown to outsiders: the door to everything about small counts.

`Release` holds counts, sums and what is published; `feasible` says what a reader can work out,
`leaks` which small counts that gives away, `hide` what to hide, `masked` the release without it.
"""

from seasonboard.disclosure.cell_suppression import hide, masked
from seasonboard.disclosure.disclosure_risk import Leak, leaks
from seasonboard.disclosure.feasible_ranges import Range, feasible
from seasonboard.disclosure.published_figures import (
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
from seasonboard.disclosure.release import (
    THRESHOLD,
    Equation,
    Policy,
    PolicyError,
    Release,
    adds_up,
)
from seasonboard.stats.rates import PER

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
