"""The plan of a pitch: teams, what guards could keep, prints, cost, and what would change it."""

from seasonboard.answers import words
from seasonboard.answers.fields import Kind
from seasonboard.answers.pitch.parts import Basis, TeamAhead
from seasonboard.answers.pitch.text import Figures, print_figures, season_figures
from seasonboard.answers.pitch.words import LIMITS_WORDS, count, range_80, range_95
from seasonboard.documents.model import (
    Cell,
    Column,
    Paragraph,
    Part,
    Picture,
    Section,
    Table,
)
from seasonboard.documents.pitch.baselines import BARE, GUARDED
from seasonboard.documents.pitch.counts import team_athletes
from seasonboard.documents.pitch.inputs import inputs, swings
from seasonboard.documents.pitch.masked import HIDDEN, MaskedPitch, tenths, whole
from seasonboard.documents.svg.ranges import Promise, Words, promise
from seasonboard.scope import Outcome

RESTS_ON = {
    Basis.OWN: "own records",
    Basis.OWN_BOTH: "own records, pooled",
    Basis.PUBLISHED: "published rates",
    Basis.NOT_KNOWN: "not known",
}
_KEPT = ("games kept", "days kept", "injuries averted")
_RANGES = ("80 % from", "80 % to", "95 % from", "95 % to")


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
        Section("What would change it most", (*swings(masked), inputs(masked))),
    )


def _teams(masked: MaskedPitch) -> Table:
    pitch = masked.sources.pitch
    lost = " with time lost" if pitch.summary.scope.outcome is Outcome.TIME_LOSS else ""
    rows = tuple(_team(masked, n, team) for n, team in enumerate(pitch.teams))
    lead = (
        f"Means of one season without guards; injuries are those to "
        f"{words.sites_word(pitch.sites)}{lost}."
    )
    given = "as given for this plan" if pitch.is_given else "the middle of the teams served"
    note = (
        f"Athletes, games and practices are {given}. Own records are those of departments served; "
        "pooled: games and practices have one rate."
    )
    if any(team.injuries is None for team in pitch.teams):
        note += (
            " Not known: these are too few, and nothing is published for these sites; such a team "
            "is in the prints, not in injuries and games."
        )
    columns = (
        Column("team"),
        Column("athletes", Kind.COUNT),
        Column("games", Kind.COUNT),
        Column("practices", Kind.COUNT),
        Column("injuries", Kind.TENTHS),
        Column("games missed", Kind.TENTHS),
        Column("rests on"),
    )
    return Table("teams", "Team by team.", columns, rows, lead, note)


def _team(masked: MaskedPitch, place: int, team: TeamAhead) -> tuple[Cell, ...]:
    is_given = masked.sources.pitch.is_given
    size = team.athletes if is_given else masked.count(team_athletes(place, team), team.athletes)
    injuries: Cell = tenths(team.injuries)
    missed: Cell = tenths(team.games_missed)
    if team.injuries is not None and not masked.has_team(place, team):
        injuries = missed = HIDDEN
    elif missed is not None and not masked.has_absence:
        missed = HIDDEN
    rests = dict.fromkeys(RESTS_ON[each.baseline.basis] for each in team.settings)
    on = "; ".join(rests) or RESTS_ON[Basis.NOT_KNOWN]
    return (team.name, size, team.team.games, team.team.practices, injuries, missed, on)


def _kept(masked: MaskedPitch) -> tuple[Part, ...]:
    pitch = masked.sources.pitch
    ahead, effect = pitch.ahead, pitch.effect
    if ahead is None:
        return (
            Paragraph("Nothing is planned: how many injuries to expect is not known for any team."),
        )
    if not masked.has_promise:
        return (Paragraph(_why_hidden(masked)),)
    figures = [(name, found) for name, found in season_figures(pitch) if found is not None]
    rows = tuple(
        (name, whole(f.median), *map(whole, (f.low_80, f.high_80, f.low_95, f.high_95)))
        for name, f in figures
    )
    table = Table("one season", "One season, simulated.", _spread_columns("in one season"), rows,
                  f"{words.whole(pitch.options.seasons)} seasons were drawn; ranges hold chance, "
                  "the rate and the effect of a guard.")  # fmt: skip
    by_name = dict(figures)
    drawn = _promises(season_figures(pitch))
    if effect.ratio is None or not drawn:
        why = "No effect of a guard is shown yet by the records: no game kept is promised."
        if effect.ratio_needed is not None:
            why += (
                " For one game missed in ten to be kept, guarded sites would have to be hurt at "
                f"most {words.ratio(effect.ratio_needed)} times as often as bare ones."
            )
        return (Paragraph(why), table)
    about = "; ".join(
        f"{r.name} {count(r.median)}, 80 in 100 seasons {range_80(by_name[r.name])}, 95 in 100 "
        f"{range_95(by_name[r.name])}"
        for r in drawn
    )
    title = "What guards as planned could keep: the middle, 80 and 95 of 100 seasons"
    summary = Words("promise", title, about, "in one season; below 0: lost")
    return (Paragraph(_effect(masked)), Picture(title, about, promise(summary, drawn), table))


def _promises(figures: Figures) -> list[Promise]:
    """Return the ranges as they are read: whole figures, in the drawing too."""
    found = [
        Promise(
            name,
            round(each.median),
            round(each.low_80),
            round(each.high_80),
            round(each.low_95),
            round(each.high_95),
            f"{count(each.median)} ({range_95(each)})",
        )
        for name, each in figures
        if name in _KEPT and each is not None
    ]
    return sorted(found, key=lambda each: _KEPT.index(each.name))


def _spread_columns(first: str) -> tuple[Column, ...]:
    middle = (Column(name, Kind.COUNT) for name in ("middle", *_RANGES))
    return (Column(first), *middle)


def _why_hidden(masked: MaskedPitch) -> str:
    return (
        "Not shown: what is expected rests on counts that may not be told from this document "
        f"(fewer than {masked.threshold}, or next to such a one)."
    )


def _effect(masked: MaskedPitch) -> str:
    pitch = masked.sources.pitch
    effect, scope = pitch.effect, pitch.summary.scope
    text = (
        f"Planned with the same-session ratio {words.ratio(effect.ratio)} "
        f"({words.level_words(scope)}: {words.ratio_interval(effect.low, effect.high)}; "
        f"{LIMITS_WORDS[effect.limits]})"
    )
    if masked.may(GUARDED, BARE):
        compared = masked.sources.compared
        text += (
            f", from {words.whole(compared.guarded.injuries)} injuries of guarded and "
            f"{words.whole(compared.unguarded.injuries)} of bare sites"
        )
    text += (
        f". Guarded would be {words.percent(pitch.guarded_share)} of exposures: athletes with a "
        "guard × the season left once it is fitted × sessions in which it is worn."
    )
    ahead = pitch.ahead
    if ahead is not None and ahead.visible is not None:
        text += (
            " One season there would show a difference in "
            f"{words.percent(ahead.visible.chance)} of cases: do not judge by one season."
        )
    return text


def _prints(masked: MaskedPitch) -> tuple[Part, ...]:
    if not masked.has_first_guards:
        return (Paragraph(_why_hidden(masked)),)
    rows = tuple(
        (name, whole(f.median), *map(whole, (f.low_80, f.high_80, f.low_95, f.high_95)))
        for name, f in print_figures(masked.sources.pitch)[: None if masked.has_prints else 1]
        if f is not None
    )
    note = "" if masked.has_prints else "Further prints rest on counts that may not be told."
    prints = Table("prints", "Prints of one season.", _spread_columns("prints"), rows, note=note)
    return (prints, *_times(masked))


def _times(masked: MaskedPitch) -> tuple[Part, ...]:
    """Return how prints are made, and how long a guard would take."""
    plan = masked.sources.pitch.plan
    text = f"Prints come from {plan.made_by}."
    if plan.week_capacity is not None and masked.has_prints:
        text += (
            f" That is {words.number(plan.week_capacity, digits=1).removesuffix('.0')} a week; "
            f"{words.plural(plan.needed_per_week, 'print')} a week would hold the busiest week of "
            "19 in 20 seasons."
        )
    elif plan.week_capacity is None:
        text = "Waiting for a printer is left out: no allotment and no printers were given."
    times: list[tuple[Cell, ...]] = [
        (name, *(round(hours / by) for hours in (found.median, found.p80, found.p95)))
        for name, found, by in (
            ("a first guard waits for its print", plan.ahead.wait_hours, 24),
            ("from requested to fitted", plan.ahead.turnaround_days, 1),
        )
        if found is not None and masked.has_times
    ]
    if not times:
        return (Paragraph(text),)
    columns = (
        Column("days"),
        *(Column(name, Kind.WHOLE) for name in ("half within", "80 % within", "95 % within")),
    )
    return (
        Paragraph(text),
        Table("turnaround ahead", "Days a guard would take.", columns, tuple(times)),
    )


def _cost(masked: MaskedPitch) -> tuple[Part, ...]:
    cost = masked.sources.pitch.cost
    if cost.price is None or cost.total is None:
        return ()
    if not masked.has_prints:
        return (Paragraph(_why_hidden(masked)),)
    text = (
        f"At {cost.price:g} a guard, remakes free: {count(cost.total.median)} in all "
        f"(95 %: {range_95(cost.total)}). Cost of a game kept: "
    )
    if not masked.has_promise:
        return (Paragraph(f"{text}not shown."),)
    each = cost.per_game_kept
    if each is None:
        return (Paragraph(f"{text}not known, since {cost.why}."),)
    text += f"{count(each.median)} (80 %: {range_80(each)}; 95 %: {range_95(each)})."
    return (Paragraph(text),)
