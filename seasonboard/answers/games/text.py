"""The Games answer as text to read in a terminal, and as CSV for a spreadsheet."""

from collections.abc import Sequence

from seasonboard.answers import words
from seasonboard.answers.games.parts import GamesAnswer, Group
from seasonboard.answers.layout import as_csv, page, prose, table
from seasonboard.stats.competing import SharePoint
from seasonboard.stats.estimate import Quantile
from seasonboard.stats.log_rank import LogRank
from seasonboard.stats.survival import RestrictedMean


def games_text(answer: GamesAnswer) -> str:
    """Return the Games answer as lines of text, with the ticks at which something happened."""
    clock = answer.options.clock.value.rstrip("s")
    heads = (clock, "guarded", "hurt", "uninjured", "bare", "hurt", "uninjured")
    guarded = {p.tick: p for p in answer.guarded.compared.points}
    bare = {p.tick: p for p in answer.unguarded.compared.points}
    ticks = sorted(
        tick
        for tick in guarded.keys() | bare.keys()
        if any(tick in side and side[tick].injuries for side in (guarded, bare))
    )
    rows = []
    for tick in ticks:
        cells = [str(tick)]
        for side in (guarded, bare):
            point = side.get(tick)
            share = None if point is None or point.survival is None else point.survival * 100
            cells += [
                str(point.at_risk) if point else "0",
                str(point.injuries) if point else "0",
                "–" if share is None else f"{share:.1f} %",
            ]
        rows.append(tuple(cells))
    return page(
        answer.summary,
        [
            *table(heads, rows),
            "",
            *(_group_line(group) for group in answer.groups),
            f"log-rank      {_test(answer.log_rank)}",
            f"  in strata   {_test(answer.log_rank_stratified)}",
            *_one_mix_lines(answer),
            "",
            *_ends_table(answer),
            *_naive_lines(answer),
        ],
    )


def games_csv(answer: GamesAnswer) -> str:
    """Return both curves as CSV, unrounded; empty where nothing is known."""
    names = (
        "tick",
        "at_risk",
        "injuries",
        "entered",
        "left",
        "survival",
        "std_error",
        "low",
        "high",
    )
    rows = [
        (group.name, *(getattr(point, name) for name in names))
        for group in answer.groups
        for point in group.curve.points
    ]
    return as_csv(("group", *names), rows)


def _one_mix_lines(answer: GamesAnswer) -> list[str]:
    found = answer.one_mix
    if found is None:
        return []
    if found.why:
        return prose(f"At one mix of athletes: not known ({found.why}).")
    gap = found.difference
    return prose(
        f"At one mix of athletes, up to {found.horizon}: {words.number(gap.value)} "
        f"({words.number(gap.low)} to {words.number(gap.high)}) more before an injury when guarded."
    )


def _ends_table(answer: GamesAnswer) -> list[str]:
    """Return how follow-up ended by the last tick, and the mean number of injuries."""
    heads = ("by the last tick", "guarded", "bare")
    rows = [
        (curves[0].cause, *(_last_share(curve.points) for curve in curves))
        for curves in zip(*(found.causes for found in answer.incidence), strict=True)
    ]
    means = [next((p.mean for p in reversed(f.points)), None) for f in answer.repeats]
    rows.append(("injuries per site, repeats counted", *(words.number(m, digits=3) for m in means)))
    return table(heads, rows)


def _last_share(points: Sequence[SharePoint]) -> str:
    share = next((p.share for p in reversed(points)), None)
    return "–" if share is None else f"{share * 100:.1f} %"


def _naive_lines(answer: GamesAnswer) -> list[str]:
    if answer.ever_never is None:
        return []
    ends = [
        next((p.survival for p in reversed(curve.points) if p.survival is not None), None)
        for curve in (answer.ever_never.ever, answer.ever_never.never)
    ]
    ever, never = ("–" if end is None else f"{end * 100:.1f} %" for end in ends)
    return [
        "",
        *prose(
            f"Misleading, for contrast: ever guarded {ever} uninjured, never guarded {never}. It "
            "counts the games before a guard came as guarded ones."
        ),
    ]


def _group_line(group: Group) -> str:
    name = "guarded" if group.name == "guarded" else "bare"
    return (
        f"{name:<8} {words.plural(group.athletes, 'athlete')}, "
        f"{words.plural(group.injuries, 'injury', 'injuries')}, "
        f"{words.whole(group.left)} left uninjured; median {_quantile(group.median)}; "
        f"{_mean(group.restricted_mean)}"
    )


def _quantile(found: Quantile) -> str:
    if found.value is None:
        return found.why
    high = "not reached" if found.high is None else str(found.high)
    return f"{found.value} ({'–' if found.low is None else found.low} to {high})"


def _mean(found: RestrictedMean) -> str:
    if found.value is None:
        return f"mean not known: {found.why}"
    start = f" from {found.start}" if found.start and found.start > 1 else ""
    error = words.number(found.std_error)
    return f"mean{start} up to {found.horizon}: {words.number(found.value)} (SE {error})"


def _test(test: LogRank) -> str:
    if test.chi_square is None or test.p is None:
        return test.why
    shown = f"{test.p:.3f}" if test.p >= 0.001 else "under 0.001"
    expected = words.number(test.expected, digits=1)
    return (
        f"chi-square {words.number(test.chi_square)}, p {shown}: "
        f"{test.observed} guarded injuries, {expected} expected without a difference"
    )
