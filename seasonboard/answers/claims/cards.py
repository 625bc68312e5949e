"""The method card of the claims: the fixed rules by which a sentence may be said."""

from collections.abc import Mapping

from seasonboard.answers.cards import Card

CARDS: Mapping[str, Card] = {
    "claims": Card(
        "What we may say",
        "Hurt less: the verdict of Compare says so, the limits that hold however often one looks "
        "lie below 1 too, both groups have 11 injuries, and guards of one purpose are looked at. "
        "Hurt more: the verdict says so; no second proof is asked for. More games: the limits of "
        "the difference lie above 0, as the curves are and at one mix of athletes, with 11 "
        "injuries in both groups; fewer games: as the curves are. Ready, turnaround, remade: 11 "
        "orders or fitted guards, and limits; ready also that of ten orders no more than one still "
        "waits for its game. Worn: 11 athletes. Contact: mechanics alone, whatever was recorded.",
        "said = nothing is missing; for outsiders = no count from 1 to 10 in it",
        "A sentence that is not supported may not be said; what is missing stands beside it. No "
        "claim is about prevention or safety, which these records cannot show.",
        "Fixed rules of our own, stricter than those of the screens. 11 as the least count shown: "
        "the cell size policy of the United States' Medicare agency (from memory).",
        "compare/strata",
    ),
}
