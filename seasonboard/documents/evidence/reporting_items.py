"""What a report of such a study must say, with what the store answers and what it lacks.

Numbers are those of STROBE (von Elm et al. 2007, Lancet 370:1453-1457) as extended for sport,
STROBE-SIIS (Bahr et al. 2020, Br J Sports Med 54:372-389). The items are told in our own words and
from memory; check them against the paper before handing a report in.
"""

from seasonboard.answers import words
from seasonboard.answers.compare.comparisons import HEADLINE
from seasonboard.answers.evidence.tables import Evidence

_LACKS = "**Not in the store:** "
_OPENING = """# What a report must say, and what the store answers

The numbers are those of STROBE with its extension for sport (Bahr et al. 2020), told in our own
words and from memory. Check them against the paper before you hand a report in.

**Personal data.** The tables beside this file hold a code in place of each athlete. Who knows the
season can tell people by team, position and injury. Keep and share them as records of health.
"""


def reporting_items(evidence: Evidence) -> str:
    """Return the items as Markdown, with the store's numbers and what is missing."""
    lines = [_OPENING]
    for number, item, answer in _items(evidence):
        lines.append(f"## {number}. {item}\n\n{answer}\n")
    return "\n".join(lines)


def _items(evidence: Evidence) -> list[tuple[str, str, str]]:
    compare = evidence.compare
    scope = compare.summary.scope
    headline = compare.comparison(HEADLINE).ratio
    names = {
        name: ", ".join(evidence.values(name)) or "none"
        for name in ("season", "sport", "sex", "setting", "area")
    }
    sizes = {name: len(evidence.values(name)) for name in ("athlete", "team", "session_number")}
    left_out = "\n".join(
        f"- {row.what}, {row.why}: {row.count:,}" for row in compare.summary.left_out
    )
    return [
        ("1", "Who was observed, and for how long",
         f"Sport: {names['sport']}. Sex: {names['sex']}. Seasons: {names['season']}, through "
         f"{scope.through.isoformat()}. {_LACKS}age, and level of play."),
        ("3", "Purpose and registration",
         f"Question: {compare.summary.question} {_LACKS}a registration. Questions fixed in "
         "advance stand in the table “questions”."),
        ("4", "Which problems, how coded",
         f"Injuries, outcome “{scope.outcome.value}”. Body areas: {names['area']}. Areas, tissue "
         f"and pathology are those of the consensus of 2020. {_LACKS}illness."),
        ("5", "Setting and recording",
         f"{words.plural(sizes['team'], 'team')}, "
         f"{words.plural(sizes['session_number'], 'session')} ({names['setting']}). {_LACKS}who "
         "recorded, their training, and whether they knew who wore a guard: assume they knew."),
        ("6", "Athletes",
         f"{words.plural(sizes['athlete'], 'athlete')} took part. Joining and leaving are dated on "
         f"the roster where known. {_LACKS}who was asked to take part and consent."),
        ("7", "Definitions",
         "Exposure: one athlete who took part, in full or limited, in one session. Guarded: a "
         "guard that covers the site was worn then. Time loss: a day or more lost, or still out."),
        ("9", "Bias",
         "Guards were not given at random unless turns were drawn. What could undo the ratio "
         "stands on Compare and in “ask compare”."),
        ("10", "Size", f"{words.plural(headline.informative_injuries, 'injury', 'injuries')} in "
         f"{words.plural(headline.informative_strata, 'stratum', 'strata')} inform the ratio."),
        ("12", "Methods and missing records",
         f"Interval: {headline.method or 'none'}. Not compared:\n\n{left_out or '- nothing'}\n\n"
         f"{_missing(evidence)}"),
        ("16", "Results", "figures.csv holds them; remake_figures.py and remake_figures.R make "
         "them again from the tables."),
        ("19", "Limits", "\n".join(f"- {caveat}" for caveat in compare.summary.caveats)),
        ("22", "Funding and interests",
         f"The maker of the guards analyses its own product. {_LACKS}who paid for the study."),
        ("23", "Ethics and privacy", f"{_LACKS}approval of a review board, unless turns were "
         "drawn: then its number stands in the table “turns”."),
    ]  # fmt: skip


def _missing(evidence: Evidence) -> str:
    heads, *rows = (f"| {' | '.join(map(str, row))} |" for row in evidence.missing_rows())
    rule = f"|{'---|' * heads.count(' | ')}---|"
    said = "Injuries in sessions, and how many of them lack what:"
    return "\n".join([said, "", heads, rule, *rows])
