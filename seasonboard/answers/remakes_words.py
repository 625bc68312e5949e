"""What is said of remakes: the sentence, and what to keep in mind."""

from collections.abc import Sequence

from seasonboard.answers import words
from seasonboard.answers.remakes_parts import Reason, RemakeGroup, RemakesOptions


def remakes_sentence(
    whole: RemakeGroup,
    groups: Sequence[RemakeGroup],
    reasons: Sequence[Reason],
    options: RemakesOptions,
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
    remade = [reason for reason in reasons if reason.counts_as == "remake"]
    if remade:
        first = remade[0]
        text += f" Most often for {first.reason} ({first.count} of {sum(r.count for r in remade)})."
    if whole.replacements:
        text += (
            f" {words.plural(whole.replacements, 'replacement')} "
            "(lost, outgrown or worn out) counted apart."
        )
    return text + _outside(groups, options)


def share_words(share: float | None, low: float | None, high: float | None) -> str:
    """Return a share with its limits: `12 %, 8 to 17 %`."""
    if share is None:
        return "–"
    if low is None or high is None:
        return words.percent(share)
    return f"{words.percent(share)}, {low * 100:.0f} to {high * 100:.0f} %"


def _outside(groups: Sequence[RemakeGroup], options: RemakesOptions) -> str:
    """Name the groups beyond their limits; few groups can be, by chance one in some hundred."""
    beyond = [g for g in groups if g.outside_limits and not g.is_small]
    if not beyond:
        return ""
    names = ", ".join(
        f"{g.group} ({words.percent(g.share.share or 0)}, limits "
        f"{(g.limit_low or 0) * 100:.0f} to {(g.limit_high or 0) * 100:.0f} %)"
        for g in beyond
    )
    return f" Beyond its limits by {options.by.value.replace('-', ' ')}: {names}."


def remakes_caveats(
    whole: RemakeGroup, groups: Sequence[RemakeGroup], options: RemakesOptions
) -> list[str]:
    """Return what to keep in mind."""
    said = []
    small = [g.group for g in groups if g.is_small and g.fitted]
    if small and len(groups) > 1:
        said.append(
            f"Too few guards to call different ({', '.join(small)}): fewer than ten were fitted."
        )
    if whole.reason_not_recorded:
        count = words.plural(whole.reason_not_recorded, "guard")
        said.append(
            f"{count} asked for anew without a reason recorded: counted neither as remake nor as "
            "replacement."
        )
    if whole.fitted:
        said.append(
            "Guards fitted lately have had less time to come back; the share within "
            f"{options.window} days allows for it, the share of all does not."
        )
        said.append(
            "A remake belongs to the group of the guard that came back. Groups differ in more "
            "than what they are grouped by: a guide to where to look, not a cause."
        )
    return said
