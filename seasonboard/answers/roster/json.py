"""The Roster answer as JSON for scripts: unrounded, null with a `why` where nothing is known."""

from dataclasses import asdict
from datetime import date, datetime

from seasonboard.answers.json_parts import Json, summary_json, without_empty_why
from seasonboard.answers.roster.availability import Availability
from seasonboard.answers.roster.parts import (
    Headline,
    NextGame,
    RosterAnswer,
    RosterAthlete,
    RosterGuard,
)
from seasonboard.answers.roster.text import like_word
from seasonboard.answers.roster.words import strip_mark
from seasonboard.stats.estimate import Quantile
from seasonboard.stats.rates import Rate


def roster_json(answer: RosterAnswer) -> Json:
    """Return the Roster answer as one JSON object."""
    found = {
        **summary_json(answer.summary, "roster"),
        "next_game": None if answer.next_game is None else _game(answer.next_game),
        "next_games": [_game(game) for game in answer.next_games],
        "headline": _headline(answer.headline),
        "athletes": [_athlete(athlete) for athlete in answer.athletes],
        "late_after": [without_empty_why(_plain(asdict(late))) for late in answer.late_after],
        "availability": _availability(answer.availability),
    }
    return found if answer.next_game is not None else {**found, "why": "no game is ahead"}


def _plain(found: Json) -> Json:
    """Return the same with dates and instants as text."""
    return {
        name: value.isoformat() if isinstance(value, date | datetime) else value
        for name, value in found.items()
    }


def _game(game: NextGame) -> Json:
    found = _plain(asdict(game))
    found["strip_sessions"] = [_plain(asdict(session)) for session in game.strip_sessions]
    return without_empty_why(found)


def _headline(headline: Headline) -> Json:
    return {
        **asdict(headline),
        "guards": {state.value: count for state, count in headline.guards.items()},
    }


def _athlete(athlete: RosterAthlete) -> Json:
    injury, like = athlete.injury, athlete.like
    return {
        "athlete": athlete.athlete,
        "name": athlete.name,
        "team": athlete.team,
        "season": athlete.season,
        "jersey": athlete.jersey,
        "position": athlete.position,
        "position_group": athlete.position_group,
        "status": athlete.status.value,
        "reason": athlete.reason,
        "because": athlete.because,
        "expected_back": athlete.expected_back,
        "expected_back_why": athlete.expected_back_why or "nothing to come back from is recorded",
        "last_recorded_on": None if athlete.last_on is None else athlete.last_on.isoformat(),
        "sessions_since": athlete.sessions_since,
        "injury": None if injury is None else _plain(asdict(injury)),
        "like_injuries": None
        if like is None
        else without_empty_why({**asdict(like), "told": like_word(like)}),
        "days_lost": athlete.days_lost,
        "guards": [_guard(guard) for guard in athlete.guards],
        "taken_part": athlete.taken_part,
        "worn": athlete.worn,
        "worn_share": athlete.worn_share,
        **({"worn_share_why": athlete.worn_share_why} if athlete.worn_share is None else {}),
        "needs": list(athlete.needs),
        "attention": athlete.attention,
        "strip": [
            {"state": cell.state, "guarded": cell.is_guarded, "mark": strip_mark(cell)}
            for cell in athlete.strip
        ],
    }


def _guard(guard: RosterGuard) -> Json:
    return without_empty_why(_plain({**asdict(guard), "state": guard.state.value}))


def _availability(found: Availability) -> Json:
    severity = found.severity
    return {
        "sessions": [
            _plain(asdict(session))
            | ({} if session.recorded else {"why": "no state that can be told is recorded"})
            for session in found.sessions
        ],
        "totals": [without_empty_why(asdict(total)) for total in found.totals],
        "roster_days": found.roster_days,
        "unavailable_days": found.unavailable_days,
        "severity": without_empty_why(
            {
                **asdict(severity),
                "is_lower_bound": severity.still_open > 0,
                "median": _median(severity.median),
            }
        ),
        "burden": without_empty_why(asdict(found.burden)),
        "by_season_part": [
            {
                "season_part": part.season_part,
                "any": _rate(part.any_injury),
                "time_loss": _rate(part.time_loss),
            }
            for part in found.by_part
        ],
    }


def _rate(rate: Rate) -> Json:
    return without_empty_why(
        {
            "injuries": rate.injuries,
            "exposures": rate.exposures,
            "rate": rate.value,
            "low": rate.low,
            "high": rate.high,
            "level": rate.level,
            "why": rate.why,
        }
    )


def _median(median: Quantile) -> Json:
    return without_empty_why(
        {
            "share": median.share,
            "value": median.value,
            "low": median.low,
            "high": median.high,
            "why": median.why,
        }
    )
