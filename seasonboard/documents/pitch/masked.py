"""What of a pitch may be shown, asked in its own words, and the cells of its tables."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from seasonboard.answers.compare.comparisons import HEADLINE, Comparison
from seasonboard.answers.fields import Field
from seasonboard.answers.pitch import inputs
from seasonboard.answers.pitch.parts import LEAST, Input, TeamAhead
from seasonboard.answers.take_up.parts import ACCEPTED, FITTED, WORN
from seasonboard.disclosure.verdict import HIDDEN, DisclosureVerdict
from seasonboard.documents.described import Take, as_rounded
from seasonboard.documents.model import Cell
from seasonboard.documents.pitch import counts
from seasonboard.documents.pitch.baselines import expected
from seasonboard.documents.pitch.counts import PitchSources

_RESTS_ON = {
    inputs.TAKES: (
        counts.TAKES,
        f"{counts.TAKES}, interval",
        *map(counts.step_name, (ACCEPTED, FITTED, WORN)),
    ),
    inputs.WORN_IN: (counts.WORN_IN, "worn in, athletes"),
    inputs.REMADE: (counts.REMADE, f"{counts.REMADE}, interval"),
}
"""What an input tells of counts, by its name."""


@dataclass(frozen=True, slots=True)
class MaskedPitch:
    """The evidence, and what of it may be shown.

    `is_narrowed`: teams too small to show were left out of the department like those served.
    """

    sources: PitchSources
    verdict: DisclosureVerdict
    is_narrowed: bool

    @property
    def threshold(self) -> int:
        """Return the smallest count that is shown."""
        return self.verdict.policy.threshold

    def may(self, *names: str) -> bool:
        """Say whether all these may be shown."""
        return self.verdict.may_show(*names)

    def has_input(self, one: Input) -> bool:
        """Say whether an input may be shown: an own one whose counts are not known here needs 11.

        What the answer takes from own records rests on 11 or more of them; whether on more, it
        does not tell.
        """
        if not one.source.startswith(inputs.OWN):
            return True
        names = _RESTS_ON.get(one.name)
        return self.may(*names) if names else self.threshold <= LEAST and self._has_many_fitted

    @property
    def has_prints(self) -> bool:
        """Say whether all prints may be shown: all that they rest on may be."""
        prints = (inputs.REMADE, inputs.LATER, inputs.PRINT_HOURS)
        return self.has_first_guards and self._has_inputs(*prints)

    @property
    def has_first_guards(self) -> bool:
        """Say whether the first guards may be shown, which no remake changes."""
        pitch = self.sources.pitch
        sizes = [] if pitch.is_given or not pitch.teams else [counts.ATHLETES]
        first = (inputs.TAKES, inputs.GUARDS_EACH, inputs.SEASON)
        return self.may(*sizes) and self._has_inputs(*first)

    @property
    def has_times(self) -> bool:
        """Say whether the times of a guard may be shown: remakes change them where prints wait."""
        is_free = self.sources.pitch.plan.week_capacity is None
        return self._has_many_fitted and (self.has_first_guards if is_free else self.has_prints)

    @property
    def _has_many_fitted(self) -> bool:
        return self.sources.remade.whole.fitted >= self.threshold

    def _has_inputs(self, *names: str) -> bool:
        return all(self.has_input(self.sources.pitch.input(name)) for name in names)

    @property
    def has_effect(self) -> bool:
        """Say whether the ratio that is planned with may be shown."""
        return self.has_ratio(self.sources.compared.comparison(HEADLINE))

    @property
    def has_absence(self) -> bool:
        """Say whether what injuries cost in games and days may be shown."""
        law = self.sources.pitch.absence
        return law is None or not self.verdict.policy.is_small(law.injuries)

    @property
    def has_promise(self) -> bool:
        """Say whether games and days kept may be shown."""
        has_ratio = self.sources.pitch.effect.ratio is None or self.has_effect
        has_season = self.may(*counts.season_names(self.sources.pitch))
        has_losses = has_season and self.has_absence and self.has_times
        return has_losses and has_ratio and self._has_inputs(inputs.WORN_IN)

    def has_ratio(self, comparison: Comparison) -> bool:
        """Say whether a comparison may be shown."""
        return self.may(*counts.compared_names(comparison))

    def has_team(self, place: int, team: TeamAhead) -> bool:
        """Say whether what is expected of a team may be shown."""
        sizes = [] if self.sources.pitch.is_given else [counts.team_athletes(place, team)]
        return self.may(*expected(place, team), *sizes)

    def cells(self, rests_on: Callable[[Any], Mapping[str, str | Sequence[str]]]) -> Take:
        """Return what gives the cells of a table: marks where a count behind one may not be shown.

        Args:
            rests_on: Of a row, the names of the counts behind its fields, by the field's name.
        """

        def cell(field: Field, row: Any) -> Cell:  # noqa: ANN401 - whatever the table has as rows
            names = rests_on(row).get(field.name, ())
            if isinstance(names, str):
                return as_rounded(field, row) if self.may(names) else self.verdict.mark(names)
            return as_rounded(field, row) if self.may(*names) else HIDDEN

        return cell

    def count(self, name: str, value: int) -> int | str:
        """Return a count, or its mark."""
        return value if self.may(name) else self.verdict.mark(name)
