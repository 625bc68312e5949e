"""What is said of remakes: the sentence, and what to keep in mind."""

from collections.abc import Sequence

from seasonboard.answers import words
from seasonboard.answers.remakes.parts import (
    CONTACT_BANDS,
    Reading,
    RemakeGroup,
    RemakesBy,
    RemakesOptions,
)


def remakes_sentence(
    whole: RemakeGroup, groups: Sequence[RemakeGroup], options: RemakesOptions
) -> str:
    """Return the answer in one or two sentences."""
    if not whole.fitted:
        return "Nothing can have come back yet: no guard of the scope is recorded as fitted."
    fitted = words.plural(whole.fitted, "fitted guard")
    if not whole.remakes:
        opening = f"None of {fitted} was remade"
    else:
        opening = f"{whole.remakes} of {fitted} {'was' if whole.remakes == 1 else 'were'} remade"
    text = f"{opening} ({share_words(whole.share.share, whole.share.low, whole.share.high)})"
    within = whole.within
    if whole.remakes and within.share is not None:
        text += f", {words.percent(within.share)} within {within.days} days of fitting"
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
    return text + _outside(groups, options)


def share_words(share: float | None, low: float | None, high: float | None) -> str:
    """Return a share with its limits: `12 %, 8 to 17 %`."""
    if share is None:
        return "–"
    if low is None or high is None:
        return words.percent(share)
    return f"{words.percent(share)}, {low * 100:.0f} to {high * 100:.0f} %"


def limits_words(low: float | None, high: float | None) -> str:
    """Return control limits of a share: `4 to 17 %`; a dash without any."""
    if low is None or high is None:
        return "–"
    return f"{low * 100:.0f} to {high * 100:.0f} %"


def _outside(groups: Sequence[RemakeGroup], options: RemakesOptions) -> str:
    """Name the groups beyond their limits, and on which side."""
    by = options.by.value.replace("-", " ")
    text = ""
    for reading in (Reading.ABOVE, Reading.BELOW):
        names = ", ".join(
            f"{g.group} ({words.percent(g.share.share or 0)}, limits "
            f"{limits_words(g.limit_low, g.limit_high)})"
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
    summary = []
    small = [g.group for g in groups if g.is_small]
    if small and len(groups) > 1:
        summary.append(
            f"Too few guards to call different ({', '.join(small)}): fewer than ten were fitted."
        )
    if whole.reason_not_recorded:
        count = words.plural(whole.reason_not_recorded, "guard")
        summary.append(
            f"{count} asked for anew without a reason recorded: counted neither as remake nor as "
            "replacement."
        )
    if twice:
        summary.append(
            f"{words.plural(twice, 'guard')} asked for anew more than once: shares and reasons "
            "take the first asking; chains and remakes per 100 sessions worn take all."
        )
    if options.by is RemakesBy.CONTACT and whole.fitted:
        bands = ", ".join(name for _, _, name in CONTACT_BANDS)
        summary.append(f"Bands of the pad's share in contact are our own choice: {bands}.")
    if whole.fitted:
        summary.append(
            "Guards fitted lately have had less time to come back; the share within "
            f"{options.window} days allows for it, the share of all does not."
        )
        summary.append(
            "A remake belongs to the group of the guard that came back. Groups differ in more "
            "than what they are grouped by: a guide to where to look, not a cause."
        )
    return summary
