"""The method card of the rate per hour."""

from collections.abc import Mapping

from seasonboard.answers.cards import Card

COMPARE_CARDS: Mapping[str, Card] = {
    "rate per hour": Card(
        "Rate per 1000 hours",
        "Injuries divided by the hours for which sites were exposed, times 1000. Only sessions for "
        "which the athlete's minutes are recorded count, with their injuries; the others are left "
        "out of this rate and counted. An athlete's hour counts once for each site studied, as an "
        "exposure does: with both shins studied, one hour of one athlete is two. Minutes recorded "
        "as 0 count as no time, and an injury in them counts.",
        "1000 × injuries / hours; hours = Σ minutes / 60; limits as for the rate per exposure",
        "Long and short sessions weigh by their length here and alike per exposure, so the two "
        "rates may differ where guards are worn in longer or shorter sessions. The ratios stay per "
        "exposure. Minutes are often recorded for games only: set the scope to games then.",
        "IOC consensus statement 2020 (Bahr et al., Br J Sports Med 54:372) names both "
        "denominators, hours of exposure and athlete-exposures; Garwood 1936, Biometrika "
        "28:437-442, for the limits.",
        "compare/hours",
    ),
}
