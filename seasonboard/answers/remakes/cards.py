"""Method cards of the Remakes answer."""

from collections.abc import Mapping

from seasonboard.answers.cards import Card

CARDS: Mapping[str, Card] = {
    "remake share": Card(
        "Remakes among fitted guards",
        "A guard came back when another was asked for in its place and that one was not called "
        "off. Reasons fit, damage, print fault and scan fault make it a remake; lost, body change "
        "and worn out a replacement, counted apart; without a reason it is neither. Every fitted "
        "guard counts, a remake too: it can come back in its turn. It belongs to the group of the "
        "guard that came back.",
        "share = fitted guards remade / fitted guards",
        "Recent guards have had less time to come back, which makes the share of all look small "
        "while a season grows: read the share within some days beside it.",
        "Confidence interval: score interval, Wilson 1927, J Am Stat Assoc 22:209-212.",
        "remakes/guards",
    ),
    "within days": Card(
        "Remade within some days of fitting",
        "The share of guards asked for anew as a remake within the window (30 days unless asked "
        "otherwise). A guard fitted lately counts for the days it is known; one that was retired "
        "or replaced counts up to then.",
        "1 − Kaplan-Meier estimate at the window's end; an event on its last day counts",
        "The window is always told beside the share: another window is another number.",
        "Kaplan & Meier 1958, J Am Stat Assoc 53:457-481; log-log confidence interval.",
        "remakes/guards",
    ),
    "remake limits": Card(
        "Control limits of a group",
        "Where the share of a group of that size would lie if all groups were alike. Beyond them "
        "a group stands out more than chance explains; with fewer than ten guards it is not "
        "called different.",
        "p ± 3 √(p (1 − p) / n), p the share of all; remakes per 100 sessions worn: u ± 3 √(u / n)",
        "A group outside its control limits tells where to look, not why: phones may be used "
        "where scanning is hardest. Many groups looked at give one outside by chance now and then "
        "(3 in 1000).",
        "NIST/SEMATECH e-Handbook of Statistical Methods 6.3.3.",
        "remakes/guards",
    ),
    "remake months": Card(
        "Month by month",
        "Guards by the month they were fitted in, only those known for the whole window, and how "
        "many were remade within it; so a month does not grow better by being recent.",
        "p ± 3 √(p (1 − p) / n) over the months",
        "A month with a mark is outside its control limits; one with fewer than ten guards has "
        "none.",
        "NIST/SEMATECH e-Handbook of Statistical Methods 6.3.3.2.",
        "remakes/guards",
    ),
    "chains": Card(
        "Chains of guards",
        "A guard, the one made in its place, the one in that one's place. A chain is followed to "
        "its first guard, whatever the reasons, and counted from the first that was fitted; one "
        "that names itself, an unknown guard or that of another athlete is left out and told.",
        "share = first guards asked for anew at least once / first guards; days = from the first "
        "asking to the fitting of the last, the median of the chains whose last guard is fitted",
        "Two remakes of one guard are one guard that came back, and two guards made.",
        "Common practice; confidence interval by Wilson 1927.",
        "remakes/guards",
    ),
    "guard life": Card(
        "Guard life",
        "Sessions a guard was worn in until it was retired or asked for anew, for whatever reason. "
        "Guards in use count for the sessions worn so far; what is worn on after it was asked for "
        "anew does not count.",
        "Kaplan-Meier median in sessions worn",
        "Not reached: more than half are still in use at every count seen.",
        "Kaplan & Meier 1958; confidence interval: Brookmeyer & Crowley 1982, Biometrics 38:29-41.",
        "remakes/guards",
    ),
    "bare waiting": Card(
        "Played bare while waiting",
        "Sessions the athlete took part in from the day the guard was asked for anew to the day "
        "before the new one was fitted (or the last day known), with a site of the guard under no "
        "guard of any kind. Another guard on the other side does not cover it.",
        "a count of athlete-exposures",
        "The old guard may have been worn on meanwhile; those sessions are not in it.",
        "Common practice.",
        "remakes/guards",
    ),
}
