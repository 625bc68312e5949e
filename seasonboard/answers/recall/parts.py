"""What the Recall answer is made of."""

from dataclasses import dataclass, replace
from datetime import date

import polars as pl

from seasonboard.answers.base import Summary
from seasonboard.answers.options import option

TO_BE_DONE, DONE = "to be done", "done"


@dataclass(frozen=True, slots=True)
class RecallOptions:
    """The lot that is looked for, beside what the scope says guards are made of."""

    lot: str = option("", "--lot", "Guards of this lot or spool; as --made-of “lot …”.")


OPTIONS = RecallOptions


@dataclass(frozen=True, slots=True)
class RecallAnswer:
    """Guards made alike, with who wears them; and all that guards were made of.

    `guards` are rows of `recall/guards` with `attention`, why one is to be looked at, and
    `progress` of what a decision wants done with it; without anything asked for, only those with
    one of the two. `parts` are rows of `recall/parts`, empty where something is asked for.
    """

    summary: Summary
    guards: pl.DataFrame
    parts: pl.DataFrame

    @property
    def in_hand(self) -> pl.DataFrame:
        """Return the guards that are worn or on their way: those that a recall concerns."""
        return self.guards.filter(pl.col("state").is_in(["in use", "on its way"]))

    @property
    def to_be_done(self) -> dict[str, str]:
        """Return the guards that a decision marks and that are not done, each with its key."""
        marked = self.guards.filter(pl.col("progress") == TO_BE_DONE)
        return dict(marked.select("guard", "decision").iter_rows())

    def ticked(self, guard: str, on: date) -> "RecallAnswer":
        """Return the answer with one guard done."""
        done = {"progress": pl.lit(DONE), "done_on": pl.lit(on)}
        it = pl.col("guard") == guard
        told = [pl.when(it).then(new).otherwise(name).alias(name) for name, new in done.items()]
        return replace(self, guards=self.guards.with_columns(told))
