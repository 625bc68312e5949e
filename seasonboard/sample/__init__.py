"""An invented season with known truth: to look around in, to teach with, and to test against."""

from seasonboard.sample.season import TABLES, make_season
from seasonboard.sample.truth import DEFAULT_SEED, DEFAULT_SIZE, LAST_DAY, Truth, truth
from seasonboard.sample.write import write_season

__all__ = [
    "DEFAULT_SEED",
    "DEFAULT_SIZE",
    "LAST_DAY",
    "TABLES",
    "Truth",
    "make_season",
    "truth",
    "write_season",
]
