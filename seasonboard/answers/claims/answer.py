"""What may be said, and what may not: sentences for a pitch, by fixed rules, from the answers.

No claim is about prevention or safety: nothing that is recorded here could show either.
"""

from seasonboard.answers import words
from seasonboard.answers.base import studied_areas
from seasonboard.answers.claims.injury_claims import games_claim, hurt_claim
from seasonboard.answers.claims.parts import Claim
from seasonboard.answers.claims.work_claims import (
    contact_claim,
    ready_claim,
    remade_claim,
    turnaround_claim,
    worn_claim,
)
from seasonboard.answers.compare.parts import CompareAnswer
from seasonboard.answers.games.parts import GamesAnswer
from seasonboard.answers.remakes.parts import RemakesAnswer
from seasonboard.answers.take_up.parts import TakeUpAnswer
from seasonboard.answers.turnaround.parts import TurnaroundAnswer
from seasonboard.scope import Scope, ScopeValues


def claims(  # noqa: PLR0913 - all by name
    known: ScopeValues,
    *,
    compare: CompareAnswer | None = None,
    games: GamesAnswer | None = None,
    turnaround: TurnaroundAnswer | None = None,
    remakes: RemakesAnswer | None = None,
    take_up: TakeUpAnswer | None = None,
) -> tuple[Claim, ...]:
    """Return the claims that the answers given allow or do not allow, in the order of `TOPICS`.

    Args:
        known: Tells what the guard kinds in scope cover.
        compare: Are guarded athletes hurt less?
        games: How many games are played before an injury?
        turnaround: How long does a guard take? It also tells of guards ready for the next game.
        remakes: What came back, and why?
        take_up: Who was offered a guard, and who wears it?
    """

    def sites(scope: Scope) -> str:
        return words.sites_word(studied_areas(scope, known))

    made = (
        hurt_claim(compare, sites(compare.summary.scope)) if compare else None,
        games_claim(games, sites(games.summary.scope)) if games else None,
        ready_claim(turnaround) if turnaround else None,
        turnaround_claim(turnaround) if turnaround else None,
        remade_claim(remakes) if remakes else None,
        worn_claim(take_up) if take_up else None,
        contact_claim(),
    )
    return tuple(claim for claim in made if claim is not None)
