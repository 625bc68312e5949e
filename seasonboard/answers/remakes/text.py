"""The Remakes answer as text to read in a terminal, and as CSV for a spreadsheet."""

from seasonboard.answers import words
from seasonboard.answers.layout import as_csv, page, prose, table
from seasonboard.answers.remakes.parts import Reading, RemakeGroup, RemakesAnswer
from seasonboard.answers.remakes.words import limits_words, share_words


def remakes_text(answer: RemakesAnswer, *, group_reasons: bool = False) -> str:
    """Return the Remakes answer as lines of text; on demand the reasons of every group too."""
    if not answer.whole.fitted and not answer.reasons:
        return page(answer.summary, [])
    body: list[str] = []
    if answer.whole.fitted:
        body += [*_groups(answer), "", *prose(within_line(answer)), *prose(worn_line(answer)), ""]
    if answer.reasons:
        body += [*_reasons(answer), ""]
        body += [*_group_reasons(answer), ""] if group_reasons and answer.groups else []
    if answer.months:
        window = f"in {answer.options.window} d"
        body += [*table(("fitted in", "guards", window, "limits", ""), _months(answer)), ""]
    body += [*prose(chains_line(answer)), *prose(life_line(answer)), *prose(bare_line(answer))]
    return page(answer.summary, body)


def _groups(answer: RemakesAnswer) -> list[str]:
    by = answer.options.by.value.replace("-", " ")
    window = f"in {answer.options.window} d"
    heads = (by, "fitted", "remade", "share", window, "limits", "replaced", "")
    rows = [_row(group, _SIGNS[group.reading]) for group in answer.groups]
    return table(heads, [*rows, _row(answer.whole, "")])


_SIGNS = {
    Reading.TOO_FEW: "too few to tell",
    Reading.NO_LIMITS: "",
    Reading.ABOVE: "above its limits",
    Reading.BELOW: "below its limits",
    Reading.WITHIN: "",
}


def _row(group: RemakeGroup, sign: str) -> tuple[str, ...]:
    return (
        group.group,
        words.whole(group.fitted),
        words.whole(group.remakes),
        share_words(group.share.share, group.share.low, group.share.high),
        "–" if group.within.share is None else words.percent(group.within.share),
        limits_words(group.limit_low, group.limit_high),
        words.whole(group.replacements),
        sign,
    )


def _reasons(answer: RemakesAnswer) -> list[str]:
    early = any(r.before_fitting for r in answer.reasons)
    heads = ("reason", "guards", "share", *(["before fitting"] if early else []), "counts as")
    rows = [
        (
            *(r.reason, words.whole(r.count), words.percent(r.share)),
            *([words.whole(r.before_fitting)] if early else []),
            r.counts_as,
        )
        for r in answer.reasons
    ]
    return table(heads, rows)


def _group_reasons(answer: RemakesAnswer) -> list[str]:
    """Return how often each reason was told in each group, one row a group."""
    names = [r.reason for r in answer.reasons if r.count]
    rows = [
        (
            group.group,
            *(words.whole(sum(r.count for r in group.reasons if r.reason == n)) for n in names),
            "",
        )
        for group in answer.groups
    ]
    return table((answer.options.by.value.replace("-", " "), *names, ""), rows)


def _months(answer: RemakesAnswer) -> list[tuple[str, ...]]:
    return [
        (
            f"{month.month:%b %Y}",
            words.whole(month.fitted),
            words.whole(month.remakes),
            limits_words(month.low, month.high),
            "beyond its limits" if month.outside_limits else "",
        )
        for month in answer.months
    ]


def within_line(answer: RemakesAnswer) -> str:
    """Return the share remade within the window, with its limits or why there are none."""
    within = answer.whole.within
    opening = f"Remade within {within.days} days of fitting"
    if within.share is None:
        return f"{opening}: not known, {within.why}."
    told = share_words(within.share, within.low, within.high)
    return f"{opening}: {told}{f' ({within.why})' if within.why else ''}."


def worn_line(answer: RemakesAnswer) -> str:
    """Return remakes per 100 sessions worn, with the groups beyond their limits."""
    whole = answer.whole
    if whole.per_100_worn is None:
        return "Remakes per 100 sessions worn: not known, no session worn is recorded."
    text = f"Remakes per 100 sessions worn: {words.number(whole.per_100_worn)}"
    beyond = [
        f"{g.group} ({words.number(g.per_100_worn)}, limits {words.number(g.worn_limit_low)} to "
        f"{words.number(g.worn_limit_high)})"
        for g in answer.groups
        if g.worn_outside
    ]
    return f"{text}; beyond their limits: {', '.join(beyond)}." if beyond else f"{text}."


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
            f" From the first asking to the guard that stayed: {chains.days_to_stay:g} "
            f"{'day' if chains.days_to_stay == 1 else 'days'} in the middle."
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
        *("limit_low", "limit_high", "outside_limits", "reading"),
        *("sessions_worn", "per_100_worn", "worn_limit_low", "worn_limit_high", "worn_outside"),
    )
    rows = [
        (
            *(g.group, g.fitted, g.remakes, g.replacements, g.reason_not_recorded),
            *(g.share.share, g.share.low, g.share.high),
            *(g.within.days, g.within.share, g.within.low, g.within.high),
            *(g.limit_low, g.limit_high, g.outside_limits, "" if g is answer.whole else g.reading),
            *(g.sessions_worn, g.per_100_worn, g.worn_limit_low, g.worn_limit_high),
            g.worn_outside,
        )
        for g in (*answer.groups, answer.whole)
    ]
    return as_csv(heads, rows)
