"""What a pitch is asked with: the prospect, the two plans and their fees, the simulation."""

from dataclasses import dataclass
from enum import StrEnum

from seasonboard.answers.options import option
from seasonboard.prospect import Prospect

SEASONS = 4000
SEED = 20261
FEES = tuple(
    f"{plan}_{fee}" for plan in ("printer", "weekly") for fee in ("setup", "monthly", "per_print")
)
"""The options that are fees: of each plan once, for each month, for each print."""


class EffectLimits(StrEnum):
    """Which limits of the same-session ratio are planned with."""

    ORDINARY = "ordinary"
    PEEK_PROOF = "peek-proof"


class PrintWay(StrEnum):
    """How a department gets its prints, in the words of its record."""

    PRINTER = "onsite printer"
    WEEKLY = "weekly allotment"

    @property
    def words(self) -> str:
        """Return what is offered: `a printer in their building`."""
        return _WAYS[self.value]


_WAYS = {
    "onsite printer": "a printer in their building",
    "weekly allotment": "a weekly maximum of prints",
}


@dataclass(frozen=True, slots=True)
class Fees:
    """What a department pays: once, for each month, for each print; None where it is not said."""

    setup: float | None
    monthly: float | None
    per_print: float | None
    currency: str

    @property
    def is_told(self) -> bool:
        """Say whether any fee is said."""
        return (self.setup, self.monthly, self.per_print) != (None,) * 3


@dataclass(frozen=True, slots=True)
class PitchOptions:
    """What is asked: the prospect and how it would be served. What is None is taken from the store.

    `take_up` is the share of athletes who accept a guard and wear it. Two plans are made, one with
    `printers` that may run `printer_hours` a week, one with a maximum of `prints_per_week`; a
    number that is not given is proposed. Each has its fees, all in one `currency`.
    """

    prospect: Prospect | None = option(
        None,
        "--teams",
        "The prospect's teams as a table: sport, sex, athletes, games, practices, last season's "
        "injuries and games missed if known. Without it: a department like those served.",
    )
    take_up: float | None = option(
        None, "--take-up", "Share who accept a guard and wear it, as 0.6."
    )
    printers: int | None = option(None, "--printers", "Printers in their building; else enough.")
    printer_hours: float | None = option(
        None, "--printer-hours", "Hours a week each may print; 168 without it."
    )
    prints_per_week: float | None = option(
        None, "--prints-per-week", "The weekly maximum of prints; else enough."
    )
    scan_before: float = option(
        0.0, "--scan-before", "Weeks before the first session at which scanning begins."
    )
    scan_weeks: float = option(2.0, "--scan-weeks", "Weeks over which athletes are scanned.")
    printer_setup: float | None = option(None, "--printer-setup", "Printer: fee at the start.")
    printer_monthly: float | None = option(None, "--printer-monthly", "Printer: fee a month.")
    printer_per_print: float | None = option(None, "--printer-per-print", "Printer: fee a print.")
    weekly_setup: float | None = option(None, "--weekly-setup", "Weekly plan: fee at the start.")
    weekly_monthly: float | None = option(None, "--weekly-monthly", "Weekly plan: fee a month.")
    weekly_per_print: float | None = option(
        None, "--weekly-per-print", "Weekly plan: fee a print; remakes are free in both plans."
    )
    currency: str = option("", "--currency", "Currency of the fees, as USD.")
    hours_per_print: float | None = option(
        None, "--hours-per-print", "Hours of one print; else as recorded."
    )
    weeks: float | None = option(None, "--weeks", "Weeks of the season; else as recorded.")
    seasons: int = option(SEASONS, "--seasons", "To simulate.")
    seed: int = option(SEED, "--seed", "Same seed, same numbers.")
    limits: EffectLimits = option(
        EffectLimits.ORDINARY, "--limits", "Which limits of the same-session ratio to plan with."
    )

    def fees(self, way: PrintWay) -> Fees:
        """Return the fees of a plan."""
        name = "printer" if way is PrintWay.PRINTER else "weekly"
        setup, monthly, each = (getattr(self, fee) for fee in FEES if fee.startswith(name))
        return Fees(setup, monthly, each, self.currency)
