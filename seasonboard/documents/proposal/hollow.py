"""What the main parts of an offer lack, told before it is saved."""

from seasonboard.documents.proposal.offered import Offered


def hollow_parts(offered: Offered) -> tuple[str, ...]:
    """Return what is missing on its two pages, a sentence each with what to do."""
    pitch, asked = offered.pitch, offered.options
    served = [plan.served for plan in pitch.plans]
    missing = (
        (not (asked.by and asked.to), "It does not say from whom and for whom: --from, --for."),
        (not pitch.is_given, "The teams are like those served, not the prospect's: --teams."),
        (
            not all(plan.is_given for plan in pitch.plans),
            "A plan's printers or weekly prints are proposed, not yours: --printers, "
            "--prints-per-week.",
        ),
        (
            not all(plan.fees.is_told for plan in pitch.plans),
            "A plan has no fees and no total: --printer-per-print, --weekly-per-print and others.",
        ),
        (
            all(one is None or one.median is None for one in served),
            "No turnaround is told for either plan: the release has too few orders of each.",
        ),
        (
            pitch.ahead is None,
            "How many injuries to expect is not known for any team: give last season's in --teams.",
        ),
    )
    return tuple(text for is_missing, text in missing if is_missing)
