"""What can we promise the next department? One season ahead, with all that is not known in it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial

import polars as pl

from seasonboard.answers import words
from seasonboard.answers.base import LeftOut, Summary, studied_areas
from seasonboard.answers.claims.answer import claims
from seasonboard.answers.claims.parts import Claim
from seasonboard.answers.claims.work_claims import contact_claim
from seasonboard.answers.compare.answer import compare
from seasonboard.answers.compare.parts import CompareAnswer
from seasonboard.answers.games.answer import games
from seasonboard.answers.orders.order_groups import OrdersBy
from seasonboard.answers.pitch.ahead import DAYS, input_value, team_ahead, with_games
from seasonboard.answers.pitch.baseline import (
    IN_SESSIONS_USUAL,
    ServedRates,
    served_rates,
)
from seasonboard.answers.pitch.inputs import (
    PRINT_HOURS,
    SEASON,
    default_prospect,
    effect_of,
    own_inputs,
    with_given,
    with_needed,
)
from seasonboard.answers.pitch.options import FEES, EffectLimits, PitchOptions, PrintWay
from seasonboard.answers.pitch.parts import (
    LEAST,
    Effect,
    Input,
    PitchAnswer,
    ServedWork,
    TeamAhead,
    planned_teams,
)
from seasonboard.answers.pitch.plans import choice_of, demand_of, plan_ahead
from seasonboard.answers.pitch.swings import swings_of
from seasonboard.answers.pitch.words import summary, swing_sentence
from seasonboard.answers.questions import PITCH
from seasonboard.answers.reader import Reader, asked_of
from seasonboard.answers.remakes.answer import remakes
from seasonboard.answers.remakes.parts import RemakesAnswer
from seasonboard.answers.take_up.answer import take_up
from seasonboard.answers.take_up.parts import TakeUpAnswer
from seasonboard.answers.turnaround.answer import turnaround
from seasonboard.answers.turnaround.options import TurnaroundOptions
from seasonboard.answers.turnaround.parts import TurnaroundAnswer
from seasonboard.errors import ScopeError
from seasonboard.prospect import Prospect
from seasonboard.scope import Scope, ScopeValues, Settings, View
from seasonboard.stats.absence_duration import AbsenceLaw, absence_law
from seasonboard.stats.prints_ahead import prints_ahead
from seasonboard.terms import MIDLINE_AREAS, Area, Side


@dataclass(frozen=True, slots=True)
class Evidence:
    """What the store says: answers of other questions, and frames of the pitch's own."""

    compared: CompareAnswer
    timed: TurnaroundAnswer
    taken: TakeUpAnswer
    remade: RemakesAnswer
    claims: tuple[Claim, ...]
    frames: Mapping[str, pl.DataFrame]
    areas: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PlanBasis:
    """What a plan rests on beside what was given for it: own records, or released figures.

    `prospect` is a department like those served; `in_sessions` the share of injuries that happen in
    sessions, where a guard can act; `parts` are rows of `pitch/taking_part`, `making`
    of `pitch/making`; `plays_per_game` is the mean of an athlete's game, None where too few are
    recorded.
    """

    prospect: Prospect
    rates: ServedRates
    in_sessions: float
    parts: pl.DataFrame
    making: pl.DataFrame
    absence: AbsenceLaw | None
    inputs: tuple[Input, ...]
    effects: Mapping[EffectLimits, Effect]
    served: Mapping[PrintWay, ServedWork]
    claims: tuple[Claim, ...]
    plays_per_game: float | None = None


def pitch(
    reader: Reader, scope: Scope, scope_values: ScopeValues, options: PitchOptions | None = None
) -> PitchAnswer:
    """Plan one season of a prospect from what the store and published tables say.

    Raises:
        ScopeError: The scope asks for guards after an injury, or an option is out of range.
    """
    options = options or PitchOptions()
    refuse(scope, options)
    basis = basis_of(gathered(reader, scope, scope_values))
    return planned(basis, scope, scope_values, options)


def gathered(reader: Reader, scope: Scope, scope_values: ScopeValues) -> Evidence:
    """Return what the store says in a scope, whatever is planned with it."""
    # In this order what the questions share (sites, then orders) is made once and found again.
    board = (reader, scope, scope_values)
    compared, frames = compare(*board), _read(reader, scope)
    remade, taken = remakes(*board), take_up(*board)
    timed = turnaround(*board, TurnaroundOptions(by=OrdersBy.PLAN))
    is_followed = scope.setting is not Settings.PRACTICES
    followed = games(*board, verdict=compared.judged) if is_followed else None
    allowed = claims(
        scope_values,
        compare=compared,
        games=followed,
        turnaround=timed,
        remakes=remade,
        take_up=taken,
    )
    return Evidence(
        compared, timed, taken, remade, allowed, frames, tuple(site_counts(scope, scope_values))
    )


def basis_of(evidence: Evidence) -> PlanBasis:
    """Return what a plan rests on where it rests on own records."""
    frames = evidence.frames
    return PlanBasis(
        default_prospect(frames["pitch/served"]),
        served_rates(
            frames["pitch/baseline"],
            evidence.areas,
            1 / in_sessions_of(frames["pitch/absences"]),
        ),
        in_sessions_of(frames["pitch/absences"]),
        frames["pitch/taking_part"],
        frames["pitch/making"],
        _absence(frames["pitch/absences"]),
        own_inputs(evidence.taken, evidence.remade, frames),
        {limits: effect_of(evidence.compared, limits) for limits in EffectLimits},
        _served(evidence.timed, frames["releases/plans"]),
        evidence.claims,
        _plays_per_game(frames["games/per_game"]),
    )


def planned(
    basis: PlanBasis, scope: Scope, scope_values: ScopeValues, options: PitchOptions
) -> PitchAnswer:
    """Return the season ahead that a basis gives for one plan."""
    prospect = options.prospect or basis.prospect
    areas = site_counts(scope, scope_values)
    rates, parts, absence = basis.rates, basis.parts, basis.absence
    listed = with_given(basis.inputs, options)
    inputs = {one.name: one for one in listed}
    days = input_value(inputs, SEASON) * DAYS
    bare = [team_ahead(team, rates, parts, tuple(areas), scope) for team in prospect.teams]
    teams = with_games(bare, absence, days)
    counted, making = planned_teams(teams), basis.making
    demand = demand_of(options, inputs, counted, parts, making)
    prints = prints_ahead(demand, seasons=options.seasons, seed=options.seed)
    hours, effect = inputs[PRINT_HOURS].value, basis.effects[options.limits]
    printer, weekly = (
        plan_ahead(
            way,
            options,
            inputs=inputs,
            teams=counted,
            demand=demand,
            prints=prints,
            making=making,
            effect=effect,
            absence=absence,
            in_sessions=basis.in_sessions,
            served=basis.served,
        )
        for way in PrintWay
    )
    answer = PitchAnswer(
        summary=Summary(PITCH.asks, "", (), _left_out(teams), scope),
        options=options,
        prospect=prospect,
        is_given=options.prospect is not None,
        sites=tuple(areas),
        sites_per_athlete=sum(areas.values()),
        teams=tuple(teams),
        inputs=listed,
        effect=effect,
        absence=absence,
        prints=prints,
        hours=None if hours is None else prints.prints.times(hours),
        busiest_hours=None if hours is None else prints.busiest_week.times(hours),
        plans=(printer, weekly),
        choice=choice_of((printer, weekly)),
        swings=(),
        swing_sentence="",
        contact=contact_claim().sentence,
        claims=basis.claims,
        plays_per_game=basis.plays_per_game,
        again=partial(planned, basis, scope, scope_values),
    )
    share = answer.guarded_share
    swings = swings_of(
        counted,
        inputs=inputs,
        effect=effect,
        absence=absence,
        guarded=share * basis.in_sessions,
    )
    answer = replace(
        answer,
        effect=with_needed(effect, share),
        swings=swings,
        swing_sentence=swing_sentence(swings, effect),
    )
    return summary(answer, scope_values)


def refuse(scope: Scope, options: PitchOptions) -> None:
    """Refuse what cannot be planned with.

    Raises:
        ScopeError: The scope asks for guards after an injury, or an option is out of range.
    """
    if scope.purpose is View.RETURN:
        raise ScopeError(
            "A pitch plans guards that are to prevent, not those for a return after an injury.",
            "Ask with --purpose preventive.",
        )
    limits = (
        ("--take-up", options.take_up, 0.0, 1.0, "a share from 0 to 1, such as 0.6"),
        ("--scan-before", options.scan_before, 0.0, 26, "weeks from 0 to 26"),
        ("--scan-weeks", options.scan_weeks, 0.2, 26, "weeks, at most 26"),
        ("--prints-per-week", options.prints_per_week, 0.1, 10_000, "more than 0 prints"),
        ("--printers", options.printers, 1, 1000, "at least 1 printer"),
        ("--printer-hours", options.printer_hours, 0.1, 168, "hours a week, at most 168"),
        ("--hours-per-print", options.hours_per_print, 0.01, 1000, "hours, more than 0"),
        ("--weeks", options.weeks, 1, 60, "weeks from 1 to 60"),
        ("--seasons", options.seasons, 100, 100_000, "from 100 to 100,000 simulated seasons"),
        ("--seed", options.seed, 0, 2**63, "a whole number of 0 or more"),
        *(
            (f"--{name.replace('_', '-')}", getattr(options, name), 0.0, 1e7, "a fee of 0 or more")
            for name in FEES
        ),
    )
    for name, value, least, most, expected in limits:
        if value is not None and not least <= value <= most:
            raise ScopeError(f"{name} {value:g} cannot be planned with.", f"Give {expected}.")
    if options.printer_hours is not None and options.printers is None:
        raise ScopeError("--printer-hours says nothing without --printers.", "Give both.")
    if not options.currency and any(options.fees(way).is_told for way in PrintWay):
        raise ScopeError("A fee was given without its currency.", "Add --currency, as in USD.")


def _read(reader: Reader, scope: Scope) -> Mapping[str, pl.DataFrame]:
    """Put the pitch's own questions; who takes part is asked of games and practices alike."""
    names = ("pitch/absences", "pitch/served", "pitch/making", "pitch/prints")
    asked = asked_of(scope, *names, "releases/plans", "games/per_game")
    whole = replace(scope, purpose=View.ALL)
    asked += asked_of(whole, "pitch/baseline")  # injuries after an earlier one too
    questions = [*asked, *asked_of(scope, "pitch/taking_part", settings=None)]
    frames = reader.read_each(questions)
    return {name: frame for (name, _), frame in zip(questions, frames, strict=True)}


def site_counts(scope: Scope, scope_values: ScopeValues) -> dict[str, int]:
    """Return the body areas studied that have a site in the scope, each with how many."""
    return {
        area: sites for area in studied_areas(scope, scope_values) if (sites := _sites(area, scope))
    }


def _sites(area: str, scope: Scope) -> int:
    """Return how many sites of a body area are studied."""
    sides = (Side.MIDLINE,) if Area(area) in MIDLINE_AREAS else (Side.LEFT, Side.RIGHT)
    return sum(scope.sides is None or side.value in scope.sides for side in sides)


def injuries_in(rows: pl.DataFrame) -> int:
    """Return how many injuries rows of `pitch/absences` hold."""
    return int(rows["returned"].sum()) + int(rows["still_open"].sum())


def in_sessions_of(rows: pl.DataFrame) -> float:
    """Return the share of injuries in sessions, half at least; the usual one, of few."""
    every = injuries_in(rows)
    if every < LEAST:
        return IN_SESSIONS_USUAL
    return max(float(rows["in_sessions"].sum()) / every, 0.5)


def _absence(rows: pl.DataFrame) -> AbsenceLaw | None:
    """Return the days lost by own injuries, where there are enough of them."""
    law = absence_law(list(rows.select("days_lost", "returned", "still_open").iter_rows()))
    return law if law is not None and law.injuries >= LEAST else None


def _plays_per_game(rows: pl.DataFrame) -> float | None:
    """Return the mean plays of an athlete's game, where enough games have them recorded."""
    games = int(rows["with_plays"].sum())
    return int(rows["plays"].sum()) / games if games >= LEAST else None


def _served(timed: TurnaroundAnswer, plans: pl.DataFrame) -> dict[PrintWay, ServedWork]:
    """Return what departments on each plan were given, where one is on it."""
    departments = dict(plans.iter_rows())
    return {
        way: ServedWork(
            departments.get(way.value, 0),
            group.orders,
            group.median.value,
            group.p80.value,
            group.ready.share.value,
        )
        for way in PrintWay
        for group in timed.groups
        if group.key == way.value
    }


def _left_out(teams: Sequence[TeamAhead]) -> tuple[LeftOut, ...]:
    """Return the athletes of teams whose injuries are not known, by the reason."""
    athletes: dict[str, list[int]] = {}
    for team in teams:
        if team.injuries is None and team.athletes:
            athletes.setdefault(team.why, []).append(team.athletes)
    return tuple(
        LeftOut("athletes", f"{words.plural(len(counts), 'team')}: {why}", sum(counts))
        for why, counts in athletes.items()
    )
