"""Whose guard comes first? The turns that were drawn, and what became of them."""

from seasonboard.answers import words
from seasonboard.answers.base import CAUTION, Summary
from seasonboard.answers.questions import TURNS
from seasonboard.answers.reader import Reader, asked_of
from seasonboard.answers.turns.parts import EARLY, Turn, TurnsAnswer
from seasonboard.scope import Scope, ScopeValues

RESEARCH = (
    "Drawing whose guard comes first is research on people in many places. The review board "
    "decides whether it may be done, and on what terms."
)
NEVER = "Guards made for return, and medical need, never wait for a turn."


def turns(reader: Reader, scope: Scope, _: ScopeValues) -> TurnsAnswer:
    """Return the turns of the scope's athletes, draw by draw, in their order."""
    (rows,) = reader.read_each(asked_of(scope, "turns/turns"))
    listed = tuple(Turn(**row) for row in rows.iter_rows(named=True))
    caveats = (RESEARCH, NEVER, CAUTION) if listed else (CAUTION,)
    summary = Summary(TURNS.asks, _sentence(listed, scope), caveats, (), scope)
    return TurnsAnswer(summary, listed, scope.through)


def _sentence(listed: tuple[Turn, ...], scope: Scope) -> str:
    if not listed:
        return "No turns were drawn here: guards are made in the order that the shop decides."
    draws = dict.fromkeys(one.draw for one in listed)
    states = [one.state(scope.through) for one in listed]
    jumped = sum(one.jumped_on is not None for one in listed)
    told = (
        f"{words.plural(len(listed), 'turn')} in {words.plural(len(draws), 'draw')}: "
        f"{words.whole(states.count('fitted'))} fitted, "
        f"{words.whole(states.count('its turn') + states.count('waits'))} not printed yet, "
        f"{words.whole(jumped)} jumped."
    )
    if early := states.count(EARLY):
        were = "was" if early == 1 else "were"
        told += f" {words.whole(early)} {were} made early, and nobody recorded why."
    due = next((one for one in listed if one.state(scope.through) in {"its turn", "waits"}), None)
    if due is None:
        return told
    when = f"{due.turn_on:%a} {due.turn_on.day} {due.turn_on:%b}"
    return f"{told} Next: turn {due.turn} of draw {due.draw}, week of {when}."
