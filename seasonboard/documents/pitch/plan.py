"""The plan of a pitch: teams, what guards could keep, prints, cost, and what would change it."""

from functools import partial

from seasonboard.answers import words
from seasonboard.answers.fields import Field, Kind
from seasonboard.answers.pitch.figures import PRINTS, SEASON, known_figures
from seasonboard.answers.pitch.inputs import OWN as OWN_RECORDS
from seasonboard.answers.pitch.lines import (
    capacity_words,
    effect_interval,
    guarded_words,
    kept_words,
    total_words,
)
from seasonboard.answers.pitch.parts import Input, TeamAhead
from seasonboard.answers.pitch.tables import INPUTS, SWINGS, TEAMS
from seasonboard.answers.pitch.words import count, range_80, range_95
from seasonboard.disclosure.verdict import HIDDEN
from seasonboard.documents.described import as_read, as_rounded, document_table
from seasonboard.documents.model import Cell, Column, Paragraph, Part, Picture, Section, Table
from seasonboard.documents.pitch.baselines import BARE, GUARDED, OWN
from seasonboard.documents.pitch.counts import team_athletes
from seasonboard.documents.pitch.masked import MaskedPitch
from seasonboard.documents.svg.drawing import PictureWords
from seasonboard.documents.svg.ranges import RangeRow, season_ranges
from seasonboard.scope import Outcome

_EXPECTED = "injuries to expect"
_KEPT = ("games_kept", "days_kept", "averted")
_RANGES = ("words", "median", "low_80", "high_80", "low_95", "high_95")


def plan_sections(masked: MaskedPitch) -> tuple[Section, ...]:
    """Return the sections of the plan, in their order."""
    pitch = masked.sources.pitch
    if not pitch.teams:
        return ()
    return (
        Section("The plan at a glance", (_teams(masked),)),
        Section("What guards could keep in one season", _kept(masked)),
        Section("Prints, and how long a guard would take", _prints(masked)),
        Section("Cost", _cost(masked)),
        Section("What would change it most", (*_swings(masked), _inputs(masked))),
    )


def _teams(masked: MaskedPitch) -> Table:
    pitch = masked.sources.pitch
    lost = " with time lost" if pitch.summary.scope.outcome is Outcome.TIME_LOSS else ""
    given = "as given for this plan" if pitch.is_given else "medians of the teams served"
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
        cell=partial(_team_cell, masked),
        lead="Means of one season without guards; injuries are those to "
        f"{words.sites_word(pitch.sites)}{lost}.",
        note=note,
    )


def _team_cell(masked: MaskedPitch, field: Field, team: TeamAhead) -> Cell:
    pitch = masked.sources.pitch
    place = next(number for number, one in enumerate(pitch.teams) if one is team)
    if field.name == "athletes" and not pitch.is_given:
        return masked.count(team_athletes(place, team), team.athletes)
    cell = as_rounded(field, team)
    if field.name in {"injuries", "games_missed"}:
        may = masked.has_team(place, team) or team.injuries is None
        may = may and (masked.has_absence or field.name == "injuries" or cell is None)
        return cell if may else HIDDEN
    return cell


def _kept(masked: MaskedPitch) -> tuple[Part, ...]:
    pitch = masked.sources.pitch
    effect = pitch.effect
    if pitch.ahead is None:
        return (
            Paragraph("Nothing is planned: how many injuries to expect is not known for any team."),
        )
    if not masked.has_promise:
        return (Paragraph(_why_hidden(masked)),)
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
    return (Paragraph(_effect(masked)), Picture(title, about, season_ranges(labels, rows), table))


def _why_hidden(masked: MaskedPitch) -> str:
    return (
        "Not shown: what is expected rests on counts that may not be told from this document "
        f"(fewer than {masked.threshold}, or next to such a one)."
    )


def _effect(masked: MaskedPitch) -> str:
    pitch = masked.sources.pitch
    text = (
        f"Planned with the same-session ratio {words.ratio(pitch.effect.ratio)} "
        f"({effect_interval(pitch)})"
    )
    if masked.may(GUARDED, BARE):
        compared = masked.sources.compared
        text += (
            f", from {words.whole(compared.guarded.injuries)} injuries of guarded and "
            f"{words.whole(compared.unguarded.injuries)} of bare sites"
        )
    text += f". Guarded would be {guarded_words(pitch)}."
    if pitch.ahead is not None and pitch.ahead.visible is not None:
        text += (
            " One season there would show a difference in "
            f"{words.percent(pitch.ahead.visible.chance)} of cases: do not judge by one season."
        )
    return text


def _prints(masked: MaskedPitch) -> tuple[Part, ...]:
    if not masked.has_first_guards:
        return (Paragraph(_why_hidden(masked)),)
    pitch = masked.sources.pitch
    prints = document_table(
        *(PRINTS, pitch, "prints", "Prints of one season."),
        only=_RANGES,
        rows=known_figures(pitch, "prints")[: None if masked.has_prints else 1],
        cell=as_rounded,
        note="" if masked.has_prints else "Further prints rest on counts that may not be told.",
    )
    return (prints, *_times(masked))


def _times(masked: MaskedPitch) -> tuple[Part, ...]:
    pitch = masked.sources.pitch
    plan = pitch.plan
    text = f"Prints come from {plan.made_by}."
    if plan.week_capacity is None:
        text = "Waiting for a printer is left out: no allotment and no printers were given."
    elif masked.has_prints:
        text += f" That is {capacity_words(pitch)}."
    times: list[tuple[Cell, ...]] = [
        (name, *(round(hours / by) for hours in (time.median, time.p80, time.p95)))
        for name, time, by in (
            ("a first guard waits for its print", plan.ahead.wait_hours, 24),
            ("from requested to fitted", plan.ahead.turnaround_days, 1),
        )
        if time is not None and masked.has_times
    ]
    if not times:
        return (Paragraph(text),)
    ends = (Column(name, Kind.WHOLE) for name in ("median", "80 % within", "95 % within"))
    caption = "Days a guard would take."
    table = Table("turnaround ahead", caption, (Column("days"), *ends), tuple(times))
    return (Paragraph(text), table)


def _cost(masked: MaskedPitch) -> tuple[Part, ...]:
    pitch = masked.sources.pitch
    if pitch.cost.price is None or pitch.cost.total is None:
        return ()
    if not masked.has_prints:
        return (Paragraph(_why_hidden(masked)),)
    kept = kept_words(pitch) if masked.has_promise else "what is not shown"
    return (Paragraph(f"A{total_words(pitch)[1:]}; a game kept costs {kept}."),)


def _swings(masked: MaskedPitch) -> tuple[Part, ...]:
    """Return what would change the games kept; how far own rates may be off stands in no figure.

    The interval of an own rate tells how many injuries it rests on.
    """
    pitch = masked.sources.pitch
    if not pitch.swings or not masked.has_promise:
        why = "no effect of a guard is shown yet, or it rests on counts that may not be told."
        return (Paragraph(f"What would change the games kept most is not known: {why}"),)
    has_own = any(
        setting.baseline.basis in OWN for team in pitch.teams for setting in team.settings
    )
    table = document_table(
        *(SWINGS, pitch, "what changes it"),
        "Games kept on average with one number at its low and high end, the others as planned.",
        rows=[swing for swing in pitch.swings if not (has_own and swing.input == _EXPECTED)],
        cell=as_rounded,
    )
    sentence = pitch.swing_sentence
    if pitch.swings[0].input == _EXPECTED and has_own:
        sentence = (
            "What would change the games kept most is how many injuries there are: the ranges "
            "above hold how far that may be off."
        )
    return (Paragraph(sentence), table)


def _inputs(masked: MaskedPitch) -> Table:
    def cell(field: Field, one: Input) -> Cell:
        if field.name == "source":
            return _source(masked, one)
        if field.name in {"value", "low", "high"} and not masked.has_input(one):
            return HIDDEN
        is_end = field.name in {"low", "high"}
        return "–" if is_end and one.low == one.high else as_read(field, one)

    caption = "The numbers it rests on."
    return document_table(INPUTS, masked.sources.pitch, "what it rests on", caption, cell=cell)


def _source(masked: MaskedPitch, one: Input) -> str:
    source = "own records" if one.source.startswith(OWN_RECORDS) else one.source
    if source.startswith("assumed"):
        source = "assumed: too little is recorded"
    return one.why or source if masked.has_input(one) else source
