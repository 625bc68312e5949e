"""The Remakes answer as text to read in a terminal, and as CSV for a spreadsheet."""

from seasonboard.answers import words
from seasonboard.answers.layout import as_csv, page, prose, table
from seasonboard.answers.remakes_parts import RemakeGroup, RemakesAnswer
from seasonboard.answers.remakes_words import share_words


def remakes_text(answer: RemakesAnswer) -> str:
    """Return the Remakes answer as lines of text."""
    if not answer.whole.fitted and not answer.reasons:
        return page(answer.said, [])
    by = answer.options.by.value.replace("-", " ")
    heads = (
        by,
        "fitted",
        "remade",
        "share",
        f"in {answer.options.window} d",
        "limits",
        "replaced",
        "",
    )
    rows = [_row(group) for group in (*answer.groups, answer.whole)]
    body = [*table(heads, rows), ""]
    if answer.reasons:
        reasons = [(r.reason, words.whole(r.count), r.counts_as) for r in answer.reasons]
        body += [*table(("reason", "guards", "counts as"), reasons), ""]
    if answer.months:
        body += [*table(("fitted in", "guards", "remade", "limits", ""), _months(answer)), ""]
    body += [*prose(chains_line(answer)), *prose(life_line(answer)), *prose(bare_line(answer))]
    return page(answer.said, body)


def _row(group: RemakeGroup) -> tuple[str, ...]:
    return (
        group.group,
        words.whole(group.fitted),
        words.whole(group.remakes),
        share_words(group.share.share, group.share.low, group.share.high),
        "–" if group.within.share is None else words.percent(group.within.share),
        "–" if group.limit_low is None else _limits(group.limit_low, group.limit_high),
        words.whole(group.replacements),
        "beyond its limits" if group.outside_limits else "",
    )


def _months(answer: RemakesAnswer) -> list[tuple[str, ...]]:
    return [
        (
            f"{month.month:%b %Y}",
            words.whole(month.fitted),
            words.whole(month.remakes),
            "–" if month.low is None else _limits(month.low, month.high),
            "beyond its limits" if month.outside_limits else "",
        )
        for month in answer.months
    ]


def _limits(low: float | None, high: float | None) -> str:
    return f"{(low or 0) * 100:.0f} to {(high or 0) * 100:.0f} %"


def chains_line(answer: RemakesAnswer) -> str:
    """Return the sentence about chains of guards."""
    chains = answer.chains
    if not chains.firsts:
        return "No chain begins in this scope."
    share = share_words(chains.redone.share, chains.redone.low, chains.redone.high)
    text = (
        f"Followed to the first guard: {chains.redone.successes} of "
        f"{words.plural(chains.firsts, 'first guard')} were asked for anew, whatever the reason "
        f"({share}), {chains.redone_within.successes} of {chains.redone_within.trials} within "
        f"{answer.options.window} days of fitting; {words.plural(chains.units, 'guard')} made in "
        "their place, the longest chain "
        f"{words.plural(chains.longest, 'guard')}."
    )
    if chains.days_to_stay is not None:
        text += (
            f" From the first asking to the guard that stayed: {chains.days_to_stay:g} days in "
            "the middle."
        )
    return text


def life_line(answer: RemakesAnswer) -> str:
    """Return the sentence about guard life."""
    life = answer.life
    use = f"{words.plural(answer.guards_in_use, 'guard')} still in use"
    if life.value is None:
        return f"Guard life: half were not yet retired or asked for anew at any count ({use})."
    low = "–" if life.low is None else f"{life.low:g}"
    high = "no upper limit yet" if life.high is None else f"{life.high:g}"
    return f"Guard life: half last {life.value:g} sessions worn ({low} to {high}; {use})."


def bare_line(answer: RemakesAnswer) -> str:
    """Return the sentence about sessions played bare while waiting."""
    return (
        f"Played bare while waiting for the guard asked for anew: "
        f"{words.plural(answer.bare_exposures, 'session')} over "
        f"{words.plural(answer.waits, 'wait')}."
    )


def remakes_csv(answer: RemakesAnswer) -> str:
    """Return the groups as CSV, unrounded; empty where nothing is known."""
    heads = (
        *("group", "fitted", "remakes", "replacements", "reason_not_recorded"),
        *("share", "low", "high", "within_days", "within_share", "within_low", "within_high"),
        *("limit_low", "limit_high", "outside_limits", "sessions_worn", "per_100_worn"),
    )
    rows = [
        (
            *(g.group, g.fitted, g.remakes, g.replacements, g.reason_not_recorded),
            *(g.share.share, g.share.low, g.share.high),
            *(g.within.days, g.within.share, g.within.low, g.within.high),
            *(g.limit_low, g.limit_high, g.outside_limits, g.sessions_worn, g.per_100_worn),
        )
        for g in (*answer.groups, answer.whole)
    ]
    return as_csv(heads, rows)
