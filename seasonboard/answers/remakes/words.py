"""What is said of remakes: the sentence, its lines, and what to keep in mind."""

from collections.abc import Sequence

from seasonboard.answers import words
from seasonboard.answers.remakes.groups import CONTACT_BANDS, Reading, RemakeGroup
from seasonboard.answers.remakes.options import RemakesBy, RemakesOptions
from seasonboard.answers.remakes.parts import RemakesAnswer
from seasonboard.stats.estimate import Estimate


def remakes_sentence(
    whole: RemakeGroup, groups: Sequence[RemakeGroup], options: RemakesOptions
) -> str:
    """Return the answer in one or two sentences."""
    if not whole.fitted:
        return "Nothing can have come back yet: no guard of the scope is recorded as fitted."
    verb = "were" if whole.remakes > 1 else "was"
    text = (
        f"{whole.remakes or 'None'} of {words.plural(whole.fitted, 'fitted guard')} {verb} remade "
        f"({share_with_interval(whole.share)})"
    )
    within = whole.within
    if whole.remakes and within.value is not None:
        text += f", {words.percent(within.value)} within {within.days} days of fitting"
    text += "."
    remade = [r for r in whole.reasons if r.counts_as == "remake" and r.count]
    if remade:
        text += f" Most often for {remade[0].reason} ({remade[0].count} of {whole.remakes})."
    if whole.replacements:
        text += (
            f" {words.plural(whole.replacements, 'replacement')} "
            "(lost, outgrown or worn out) counted apart."
        )
    if whole.is_small:
        text += " Too few to tell: fewer than ten were fitted."
    return text + _outside_words(groups, options)


def share_with_interval(share: Estimate) -> str:
    """Return a share with its confidence interval: `12 %, 8 to 17 %`."""
    if share.value is None:
        return "–"
    if share.low is None or share.high is None:
        return words.percent(share.value)
    return f"{words.percent(share.value)}, {words.share_interval(share)}"


def _outside_words(groups: Sequence[RemakeGroup], options: RemakesOptions) -> str:
    """Name the groups outside their control limits, and on which side."""
    by = options.by.value.replace("-", " ")
    text = ""
    for reading in (Reading.ABOVE, Reading.BELOW):
        names = ", ".join(
            f"{g.group} ({words.percent(g.share.value or 0)}, control limits "
            f"{words.share_interval(g.control_limits)})"
            for g in groups
            if g.reading is reading
        )
        if names:
            text += f" {reading.value.capitalize()} by {by}: {names}."
    return text


def remakes_caveats(
    whole: RemakeGroup, groups: Sequence[RemakeGroup], options: RemakesOptions, twice: int
) -> list[str]:
    """Return what to keep in mind; `twice` are guards asked for anew more than once."""
    caveats = []
    small = [g.group for g in groups if g.is_small]
    if small and len(groups) > 1:
        caveats.append(
            f"Too few guards to call different ({', '.join(small)}): fewer than ten were fitted."
        )
    if whole.reason_not_recorded:
        count = words.plural(whole.reason_not_recorded, "guard")
        caveats.append(
            f"{count} asked for anew without a reason recorded: counted neither as remake nor as "
            "replacement."
        )
    if twice:
        caveats.append(
            f"{words.plural(twice, 'guard')} asked for anew more than once: shares and reasons "
            "take the first asking; chains and remakes per 100 sessions worn take all."
        )
    if options.by is RemakesBy.CONTACT and whole.fitted:
        bands = ", ".join(name for _, _, name in CONTACT_BANDS)
        caveats.append(f"Bands of the pad's share in contact are our own choice: {bands}.")
    if whole.fitted:
        caveats += [
            "Guards fitted lately have had less time to come back; the share within "
            f"{options.window} days allows for it, the share of all does not.",
            "A remake belongs to the group of the guard that came back. Groups differ in more "
            "than what they are grouped by: a guide to where to look, not a cause.",
        ]
    return caveats


def within_line(answer: RemakesAnswer) -> str:
    """Return the share remade within the window, with its interval or why there is none."""
    within = answer.whole.within
    opening = f"Remade within {within.days} days of fitting"
    if within.value is None:
        return f"{opening}: not known, {within.why}."
    why = f" ({within.why})" if within.why else ""
    return f"{opening}: {share_with_interval(within)}{why}."


def worn_line(answer: RemakesAnswer) -> str:
    """Return remakes per 100 sessions worn, with the groups outside their control limits."""
    whole = answer.whole
    if whole.per_100_worn is None:
        return "Remakes per 100 sessions worn: not known, no session worn is recorded."
    text = f"Remakes per 100 sessions worn: {words.number(whole.per_100_worn)}"
    outside = [
        f"{g.group} ({words.number(g.per_100_worn)}, control limits "
        f"{words.number(g.worn_control_limits.low)} to "
        f"{words.number(g.worn_control_limits.high)})"
        for g in answer.groups
        if g.worn_control_limits.is_outside
    ]
    return f"{text}; outside: {', '.join(outside)}." if outside else f"{text}."


def asked_line(answer: RemakesAnswer) -> str:
    """Return the sentence about the months in which remakes were asked for."""
    if not answer.asked:
        return "Remakes by the month they were asked for: no whole month is known yet."
    counts = [one.remakes for one in answer.asked]
    text = f"Remakes asked for: {words.number(sum(counts) / len(counts))} in a month"
    limits = answer.asked[0].control_limits
    if limits.low is None:
        return f"{text}; one month has no control limits."
    outside = [one for one in answer.asked if one.control_limits.is_outside]
    told = ", ".join(f"{one.month:%b %Y} ({one.remakes})" for one in outside) or "no month"
    span = f"{words.number(limits.low)} to {words.number(limits.high)}"
    return f"{text}; outside the control limits, {span}: {told}."


def chains_line(answer: RemakesAnswer) -> str:
    """Return the sentence about chains of guards."""
    chains = answer.chains
    if not chains.firsts:
        return "No chain begins in this scope."
    anew, within = chains.remade_or_replaced, chains.remade_or_replaced_within
    text = (
        f"Followed to the first guard: {anew.successes} of "
        f"{words.plural(chains.firsts, 'first guard')} were asked for anew, whatever the reason "
        f"({share_with_interval(anew)}), {within.successes} of {within.trials} within "
        f"{answer.options.window} days of fitting; {words.plural(chains.units, 'guard')} made in "
        f"their place, the longest chain {words.plural(chains.longest, 'guard')}."
    )
    if chains.days_to_stay is None:
        return text
    stayed = words.days(chains.days_to_stay)
    return f"{text} From the first asking to the guard that stayed: median {stayed}."


def life_line(answer: RemakesAnswer) -> str:
    """Return the sentence about guard life."""
    life = answer.life
    use = f"{words.plural(answer.guards_in_use, 'guard')} still in use"
    if life.value is None:
        return (
            "Guard life: median not reached, more than half are not retired or asked for anew yet "
            f"({use})."
        )
    interval = words.interval(life.low, life.high, words.duration)
    return (
        f"Guard life: median {words.duration(life.value)} sessions worn "
        f"({words.level_words(answer.summary.scope)}: {interval}; {use})."
    )


def bare_line(answer: RemakesAnswer) -> str:
    """Return the sentence about sessions played bare while waiting."""
    bare, waits = words.plural(answer.bare_exposures, "session"), words.plural(answer.waits, "wait")
    return f"Played bare while waiting for the guard asked for anew: {bare} over {waits}."
