"""The plan of a pitch: teams, what guards could keep, prints, cost, and what would change it."""

from seasonboard.answers import words
from seasonboard.answers.fields import Field
from seasonboard.answers.pitch.figures import PRINTS, SEASON, known_figures
from seasonboard.answers.pitch.lines import effect_interval, guarded_words
from seasonboard.answers.pitch.parts import Input, PitchAnswer
from seasonboard.answers.pitch.tables import BESIDE, INPUTS, SWINGS, TEAMS
from seasonboard.answers.pitch.words import count, range_80, range_95
from seasonboard.documents.described import as_read, as_rounded, document_table
from seasonboard.documents.model import Cell, Paragraph, Part, Picture, Section, Table
from seasonboard.documents.svg.drawing import PictureWords
from seasonboard.documents.svg.ranges import RangeRow, season_ranges
from seasonboard.scope import Outcome

_KEPT = ("games_kept", "days_kept", "averted")
_RANGES = ("words", "median", "low_80", "high_80", "low_95", "high_95")


def plan_sections(pitch: PitchAnswer) -> tuple[Section, ...]:
    """Return the sections of the plan, in their order."""
    if not pitch.teams:
        return ()
    return (
        Section("The plan at a glance", (_teams(pitch),)),
        Section("What guards could keep in one season", _kept(pitch)),
        Section("Prints, and how long a guard would take", _prints(pitch)),
        Section("What would change it most", (*_swings(pitch), _inputs(pitch))),
    )


def _teams(pitch: PitchAnswer) -> Table:
    lost = " with time lost" if pitch.summary.scope.outcome is Outcome.TIME_LOSS else ""
    given = "as given for this plan" if pitch.is_given else "usual for the teams served"
    note = (
        f"Athletes, games and practices are {given}. Own: records of departments served; both "
        "settings: games and practices have one rate."
    )
    if any(team.injuries is None for team in pitch.teams):
        note += (
            " Not known: these are too few, and nothing is published for these sites; such a team "
            "is in the prints, not in injuries and games."
        )
    return document_table(
        *(TEAMS, pitch, "teams", "Team by team."),
        headings={"games_missed": "games missed"},
        cell=as_rounded,
        lead="Means of one season without guards; injuries are those to "
        f"{words.sites_word(pitch.sites)}{lost}.",
        note=note,
    )


def _kept(pitch: PitchAnswer) -> tuple[Part, ...]:
    effect = pitch.effect
    if pitch.ahead is None:
        return (
            Paragraph("Nothing is planned: how many injuries to expect is not known for any team."),
        )
    table = document_table(
        *(SEASON, pitch, "one season", "One season, simulated."),
        only=_RANGES,
        cell=as_rounded,
        lead=f"{words.whole(pitch.options.seasons)} seasons were drawn; ranges hold chance, "
        "the rate and the effect of a guard.",
    )
    figures = {figure.name: figure for figure in known_figures(pitch, "season")}
    kept = [figures[name] for name in _KEPT if name in figures]
    if effect.ratio is None or not kept:
        why = "No effect of a guard is shown yet by the records: no game kept is promised."
        if effect.ratio_needed is not None:
            why += (
                " For one game missed in ten to be kept, guarded sites would have to be hurt at "
                f"most {words.ratio(effect.ratio_needed)} times as often as bare ones."
            )
        return (Paragraph(why), table)
    about = "; ".join(
        f"{figure.words} {count(figure.spread.median)}, 80 in 100 seasons "
        f"{range_80(figure.spread)}, 95 in 100 {range_95(figure.spread)}"
        for figure in kept
    )
    rows = [  # whole figures, as they are read, in the drawing too
        RangeRow(
            figure.words,
            f"{count(figure.spread.median)} ({range_95(figure.spread)})",
            *(round(getattr(figure.spread, end)) for end in _RANGES[1:]),
        )
        for figure in kept
    ]
    title = "What guards as planned could keep: the median, 80 and 95 of 100 seasons"
    labels = PictureWords("promise", title, about, "in one season; below 0: lost")
    return (Paragraph(_effect(pitch)), Picture(title, about, season_ranges(labels, rows), table))


def _effect(pitch: PitchAnswer) -> str:
    text = (
        f"Planned with the same-session ratio {words.ratio(pitch.effect.ratio)} "
        f"({effect_interval(pitch)})"
    )
    if pitch.effect.injuries_guarded and pitch.effect.injuries_unguarded:
        text += (
            f", from {words.whole(pitch.effect.injuries_guarded)} injuries of guarded and "
            f"{words.whole(pitch.effect.injuries_unguarded)} of bare sites at most"
        )
    text += f". Guarded would be {guarded_words(pitch)}."
    if pitch.ahead is not None and pitch.ahead.visible is not None:
        text += (
            " One season there would show a difference in "
            f"{words.percent(pitch.ahead.visible.chance)} of cases: do not judge by one season."
        )
    return text


def _prints(pitch: PitchAnswer) -> tuple[Part, ...]:
    prints = document_table(
        *(PRINTS, pitch, "prints", "Prints of one season."),
        only=_RANGES,
        rows=known_figures(pitch, "prints"),
        cell=as_rounded,
    )
    beside = document_table(BESIDE, pitch, "two plans", "The two plans side by side.", cell=as_read)
    return (prints, beside, Paragraph(pitch.choice.why))


def _swings(pitch: PitchAnswer) -> tuple[Part, ...]:
    if not pitch.swings:
        why = "no effect of a guard is shown yet."
        return (Paragraph(f"What would change the games kept most is not known: {why}"),)
    table = document_table(
        *(SWINGS, pitch, "what changes it"),
        "Games kept on average with one number at its low and high end, the others as planned.",
        rows=pitch.swings,
        cell=as_rounded,
    )
    return (Paragraph(pitch.swing_sentence), table)


def _inputs(pitch: PitchAnswer) -> Table:
    def cell(field: Field, one: Input) -> Cell:
        is_end = field.name in {"low", "high"}
        return "–" if is_end and one.low == one.high else as_read(field, one)

    caption = "The numbers it rests on."
    return document_table(INPUTS, pitch, "what it rests on", caption, cell=cell)
