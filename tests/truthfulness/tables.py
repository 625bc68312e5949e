"""Tables of the report, and whether each cell keeps its bound."""

import math
from collections.abc import Callable, Iterable, Sequence

from tests.truthfulness.study import Fared, Result

LEAST, MOST = 0.93, 0.97
FALSE = 0.05
"""Bounds: coverage between the first two; “fewer injuries” declared without effect at most this."""

RIGHT = (
    "same session", "same session, exact", "same session, clustered", "peek-proof, at the end",
    "peek-proof, any weekly look", "alike athletes", "alike athletes, clustered", "same athlete",
    "same athlete, clustered", "other side", "other side, exact", "other side, clustered",
    "crude, mid-P", "crude, exact",
)  # fmt: skip

HEAD = (
    "interval", "coverage %", "given %", "median width", "bias, pooled", "bias, median season",
    "“fewer injuries” %",
)  # fmt: skip


def may_be_wide(name: str, result: Result) -> bool:
    """Say whether an interval may cover more than 97 %: exact ones, and few injuries."""
    wide = ("exact", "mid-P", "peek-proof")
    return any(word in name for word in wide) or result.scenario.variation.injuries < 10


def model_holds(name: str, result: Result) -> bool:
    """Say whether an interval's model holds in a scenario."""
    return not name.startswith(result.scenario.variation.free_of_model or ("\0",))


def narrow(name: str, result: Result) -> bool:
    """Say whether an interval covers less than it must."""
    return model_holds(name, result) and result.fared[name].coverage < LEAST


def too_wide(name: str, result: Result) -> bool:
    """Say whether an interval covers more than it should."""
    coverage = result.fared[name].coverage
    return model_holds(name, result) and coverage > MOST and not may_be_wide(name, result)


def markdown(head: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    """Return a Markdown table."""
    lines = [head, ["---"] * len(head), *rows]
    return "\n".join("| " + " | ".join(line) + " |" for line in lines) + "\n"


def percent(share: float) -> str:
    """Return a share in percent, one decimal."""
    return "–" if math.isnan(share) else f"{share * 100:.1f}"


def log_ratio(value: float) -> str:
    """Return a log ratio with its sign."""
    if math.isnan(value):
        return "–"
    if math.isinf(value):
        return "∞" if value > 0 else "−∞"
    return f"{value:+.2f}".replace("-", "−")


def fared_table(results: Sequence[Result], names: Iterable[str], *, judged: bool = True) -> str:
    """Return how intervals fared in one kind of season, ratios beside each other."""
    rows = [_row(results, name, judged=judged) for name in names]
    return markdown(HEAD, rows)


def _row(results: Sequence[Result], name: str, *, judged: bool) -> list[str]:
    def beside(text: Callable[[Fared], str]) -> str:
        return " / ".join(text(result.fared[name]) for result in results)

    return [
        name,
        " / ".join(coverage(name, result, judged=judged) for result in results),
        beside(lambda f: percent(f.told)),
        beside(lambda f: "∞" if math.isinf(f.width) else "–" if math.isnan(f.width) else
               f"{f.width:.2f}"),
        beside(lambda f: log_ratio(f.bias_pooled)),
        beside(lambda f: log_ratio(f.bias_median)),
        " / ".join(_fewer(name, result) for result in results),
    ]  # fmt: skip


def coverage(name: str, result: Result, *, judged: bool = True) -> str:
    """Return a coverage with its mark: ▼ too low, ▲ too high, brackets where no model holds."""
    text = percent(result.fared[name].coverage)
    if not judged:
        return text
    if not model_holds(name, result):
        return f"({text})"
    if narrow(name, result):
        return f"**{text} ▼**"
    return f"{text} ▲" if too_wide(name, result) else text


def _fewer(name: str, result: Result) -> str:
    share = result.fared[name].fewer
    bad = result.scenario.ratio == 1 and share > FALSE
    return f"**{percent(share)} ▼**" if bad else percent(share)


def bounds_table(results: Sequence[Result]) -> str:
    """Return each interval's lowest and highest coverage where its model holds."""
    rows = []
    for name in RIGHT:
        held = [r for r in results if model_holds(name, r)]
        if not held:
            continue
        low = min(held, key=lambda r: r.fared[name].coverage)
        judged = [r for r in held if not may_be_wide(name, r)]
        top = max(judged, key=lambda r: r.fared[name].coverage) if judged else None
        rows.append(
            [
                name,
                _where(name, low),
                _where(name, top) if top else "may be above",
                _kept(name, held),
            ]
        )
    return markdown(("interval", "lowest coverage", "highest coverage", "93 to 97 %"), rows)


def other_bounds_table(results: Sequence[Result]) -> str:
    """Return the lowest coverage of rates."""
    kinds: list[tuple[str, list[tuple[float, Result]]]] = [
        (f"{group} rate, exact Poisson", [(r.rates[i].of_these, r) for r in results])
        for i, group in enumerate(("bare", "guarded"))
    ]
    rows = []
    for name, covered in kinds:
        if covered:
            least, result = min(covered, key=lambda pair: pair[0])
            under = sum(share < LEAST for share, _ in covered)
            kept = f"**not met: too narrow in {under}**" if under else "met in all"
            where = f"{percent(least)} ({place(result)})"
            rows.append([name, where, f"{kept}{' of' if under else ''} {len(covered)}"])
    return markdown(("interval", "lowest coverage", "at least 93 %"), rows)


def _where(name: str, result: Result) -> str:
    return f"{percent(result.fared[name].coverage)} ({place(result)})"


def place(result: Result) -> str:
    """Return a scenario in words."""
    return f"{result.scenario.variation.name}, ratio {result.scenario.ratio:g}"


def _kept(name: str, held: Sequence[Result]) -> str:
    low, high = sum(narrow(name, r) for r in held), sum(too_wide(name, r) for r in held)
    parts = [f"**not met: too narrow in {low}**"] if low else []
    parts += [f"too wide in {high}"] if high else []
    return f"{', '.join(parts)} of {len(held)}" if parts else f"met in all {len(held)}"


def false_table(results: Sequence[Result]) -> str:
    """Return how often “fewer injuries” was declared without any effect."""
    none = [r for r in results if r.scenario.ratio == 1]
    rows = []
    for name in RIGHT:
        held = [r for r in none if model_holds(name, r)]
        if not held:
            continue
        most = max(held, key=lambda r: r.fared[name].fewer)
        share = most.fared[name].fewer
        met = "met" if share <= FALSE else "**not met**"
        rows.append([name, f"{percent(share)} ({most.scenario.variation.name})", met])
    return markdown(("interval", "most often, in % of seasons", "at most 5 %"), rows)
