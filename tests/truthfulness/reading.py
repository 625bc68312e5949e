"""The plain reading at the top of the report; every number in it comes from the run."""

import math
from collections.abc import Callable, Sequence

from seasonboard.answers.compare.verdict import LESS, TOO_FEW
from tests.truthfulness import wrong
from tests.truthfulness.study import Fared, Result
from tests.truthfulness.tables import FALSE, model_holds, narrow, percent, too_wide

_SMALL = 0.05
"""A log ratio off by less than this is not worth a warning."""


class Reading:
    """Looks up how an interval fared; LookupError where the scenario was not run."""

    def __init__(self, results: Sequence[Result]) -> None:
        self._results = {(r.scenario.variation.name, r.scenario.ratio): r for r in results}

    def result(self, variation: str, ratio: float = 1.0) -> Result:
        return self._results[variation, ratio]

    def fared(self, name: str, variation: str, ratio: float = 1.0) -> Fared:
        return self.result(variation, ratio).fared[name]

    def factor(self, name: str, variation: str, ratio: float = 1.0) -> str:
        """Return by what an interval's ratio is off over all seasons: 1.00 is right."""
        return f"{math.exp(self.fared(name, variation, ratio).bias_pooled):.2f}"

    def held(self, name: str) -> list[Result]:
        """Return the scenarios in which an interval's model holds."""
        return [r for r in self._results.values() if model_holds(name, r)]

    def holds(self, name: str) -> str:
        """Return whether an interval keeps both bounds wherever its model holds."""
        held = self.held(name)
        false = [r.fared[name].fewer for r in held if r.scenario.ratio == 1]
        kept = not any(narrow(name, r) or too_wide(name, r) for r in held)
        return "holds" if kept and max(false) <= FALSE else "does not keep its bounds"

    def coverages(self, name: str) -> str:
        """Return the range of an interval's coverage, in percent."""
        values = [r.fared[name].coverage for r in self.held(name)]
        return f"{percent(min(values))} to {percent(max(values))} %"

    def most_false(self, name: str) -> str:
        """Return the highest share of false “fewer injuries”, in percent."""
        values = [r.fared[name].fewer for r in self.held(name) if r.scenario.ratio == 1]
        return f"{percent(max(values))} %"


def reading(results: Sequence[Result]) -> str:
    """Return the reading as a list; sentences about scenarios that were not run are left out."""
    read = Reading(results)
    summary = []
    for sentence in _SENTENCES:
        try:
            summary.append("- " + sentence(read))
        except LookupError:
            continue
    return "\n".join(summary) + "\n"


def _headline(read: Reading) -> str:
    power = [percent(read.fared("same session", "many injuries", r).fewer) for r in (0.6, 0.3)]
    small = [percent(read.fared("same session", "plain", r).fewer) for r in (0.6, 0.3)]
    return (
        f"**The headline {read.holds('same session')}.** Same session: coverage "
        f"{read.coverages('same session')} over all scenarios in which its model holds, false "
        f"“fewer injuries” in at most {read.most_false('same session')} of seasons. Power is "
        "modest: with 40 injuries a season "
        f"a ratio of 0.6 is seen in {small[0]} % and one of 0.3 in {small[1]} % of seasons, with "
        f"100 injuries in {power[0]} % and {power[1]} %. One season of one department rarely "
        "settles a ratio of 0.6."
    )


def _looks(read: Reading) -> str:
    name = "peek-proof, any weekly look"
    ordinary = read.fared(wrong.WEEKLY, "many injuries")
    missed = 1 - min(r.fared[name].coverage for r in read.held(name))
    return (
        "**Weekly looks need the peek-proof interval.** It misses the truth at any look in at "
        f"most {percent(missed)} % of seasons and "
        f"falsely says “fewer injuries” in at most {read.most_false(name)}; the ordinary interval, "
        f"looked at weekly, misses it in {percent(1 - ordinary.coverage)} % of seasons with 100 "
        "injuries and no effect. The price is width."
    )


def _few(read: Reading) -> str:
    shares = [percent(read.result("few injuries", r).verdicts.get(TOO_FEW, 0)) for r in (1.0, 0.3)]
    return (
        "**Few injuries say little, and the board says so.** With 8 injuries a season it says “too "
        f"few injuries to tell” in {shares[0]} % (ratio 1) and {shares[1]} % (ratio 0.3) of "
        "seasons. Intervals are then wider than they claim, which is the safe side; the clustered "
        "ones are not given in most such seasons, and those that are given lean on seasons that "
        "happened to have injuries in both groups."
    )


def _sentence(read: Reading) -> str:
    none = [r for r in read.held("same session") if r.scenario.ratio == 1]
    worst = max(r.verdicts.get(LESS, 0.0) for r in none)
    return (
        f"**The sentence “{LESS}”** is said without any effect in at most {percent(worst)} % of "
        "seasons, wherever the headline's model holds."
    )


def _drift(read: Reading) -> str:
    alike, frail = (
        read.factor("same session", v, 0.3) for v in ("many injuries", "many, frailty 1.5")
    )
    there = [read.factor("same session", v, 0.3) for v in ("plain", "frailty 0.5", "frailty 1.5")]
    return (
        "**A first-injury ratio under uneven athletes** drifts as the frail leave the bare group "
        f"first. Same session at ratio 0.3 is off by a factor of {there[0]} with alike athletes, "
        f"{there[1]} at frailty 0.5, {there[2]} at 1.5; with 100 injuries by {alike} (alike) and "
        f"{frail} (frailty 1.5)."
    )


def _clustered(read: Reading) -> str:
    name = "same session, clustered"
    if not any(narrow(name, r) for r in read.held(name)):
        return (
            "**The clustered interval of the headline** is nowhere too narrow: coverage "
            f"{read.coverages(name)}."
        )
    return (
        "**The clustered interval of the headline is too narrow.** Same session, clustered: "
        f"coverage {percent(read.fared(name, 'many injuries').coverage)} % with 100 injuries and "
        f"no effect, {read.coverages(name)} over all scenarios, false “fewer injuries” up to "
        f"{read.most_false(name)}. Its strata hold a handful of athletes and mostly one injury, "
        "which is little for a spread between athletes. The model interval beside it holds, also "
        "with uneven athletes, since a site is hurt only once in the preventive view: that is the "
        "one to read. With 8 injuries, alike athletes, clustered, falls to "
        f"{percent(read.fared('alike athletes, clustered', 'few injuries', 0.3).coverage)} % too."
    )


def _absence(read: Reading) -> str:
    out, nobody = (read.factor("same athlete", v) for v in ("many injuries", "many, nobody out"))
    if abs(read.fared("same athlete", "many injuries").bias_pooled) < _SMALL:
        return (
            "**Same athlete is not misled by absence after an injury**: without any effect off by "
            f"a factor of {out} where injuries keep athletes out, {nobody} where they do not; "
            f"coverage {read.coverages('same athlete')}."
        )
    return (
        "**Same athlete errs toward harm when injuries keep athletes out.** With no effect its "
        f"ratio is off by a factor of {out}; if nobody misses a session after an injury, by "
        f"{nobody}. Why: an injury takes away sessions that would mostly have been guarded, so "
        "that the exposure depends on the injury. It can hide an effect, or hint at harm; it does "
        "not invent a benefit. Its "
        f"coverage stays at {read.coverages('same athlete')} because its intervals are wide."
    )


def _own_risk(read: Reading) -> str:
    off, athlete, side = (
        read.factor(name, "guard by own risk")
        for name in ("same session", "same athlete", "other side")
    )
    covered = percent(read.fared("same session", "guard by own risk").coverage)
    return (
        "**No comparison between athletes sees an athlete's own risk.** Where those at more risk "
        f"than their position group take up more, the headline is off by a factor of {off} "
        f"(coverage {covered} %); same athlete by {athlete}, other side by {side}. That is what "
        "the comparisons beside the headline are for; they are too wide to say it in one season."
    )


def _naive(read: Reading) -> str:
    return (
        "**The naive tally is wrong both ways.** Ever against never guarded, no effect: off by a "
        f"factor of {read.factor(wrong.NAIVE, 'plain')} when all injuries count (coverage "
        f"{percent(read.fared(wrong.NAIVE, 'plain').coverage)} %), and of "
        f"{read.factor(wrong.NAIVE_FIRST, 'plain')} when sites are followed to a first injury "
        f"(“fewer injuries” in {percent(read.fared(wrong.NAIVE_FIRST, 'plain').fewer)} % of "
        "seasons)."
    )


def _limits(_: Reading) -> str:
    return (
        "**Not simulated**: a higher risk after an injury, teams that differ beyond sport and "
        "position group, wear that is recorded wrongly or not at all, injuries outside sessions, "
        "guards taken off because of pain."
    )


_SENTENCES: tuple[Callable[[Reading], str], ...] = (
    _headline, _sentence, _looks, _few, _drift, _clustered, _absence, _own_risk, _naive,
    _limits,
)  # fmt: skip
