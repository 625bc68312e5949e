"""Method cards of the Allotment answer."""

from collections.abc import Mapping

from seasonboard.answers.cards import Card

CARDS: Mapping[str, Card] = {
    "prints": Card(
        "Prints against the plan",
        "Guards by the week (Monday to Sunday, the department's days) they were printed in, "
        "against the prints its plan allows in a week. On a printer of its own: hours used of the "
        "168 hours a week that each printer named in an order has.",
        "used = prints in whole weeks / (prints a week × whole weeks)",
        "Hours not recorded make the hours used a lower bound. Scope parts that leave out orders "
        "leave out their prints too; so do guards without the stage “printed”, which are told.",
        "ISO 8601 weeks; common practice.",
        "allotment/weeks",
    ),
    "queue": Card(
        "Waiting to be printed",
        "Orders heard of by the end of the week and neither printed nor called off by then. A "
        "later stage without the stamp “printed” counts as printed.",
        "queue = all asked so far − all printed or called off so far",
        "What is waiting carries over from week to week.",
        "Common practice.",
        "allotment/weeks",
    ),
}
