"""An invented season with known truth: to look around in, to teach with, and to test against."""

from seasonboard.sample.season import TABLES, make_season
from seasonboard.sample.truth import LAST_DAY, truth
from seasonboard.sample.write import write_season

__all__ = ["LAST_DAY", "TABLES", "make_season", "truth", "write_season"]
