"""A small store's known values, invented."""

from datetime import date

from seasonboard.scope import KnownValue, ScopeValues


def known(**changes: object) -> ScopeValues:
    """Return what a store of two invented departments would know."""
    plain = {
        "season": ("2026 fall", "2025 fall"),
        "sport": ("soccer", "ice hockey"),
        "sex": ("men", "women"),
        "position group": ("forward", "goalkeeper"),
        "kind": ("shin", "wrist", "chest", "thigh"),
        "area": ("lower leg", "wrist", "chest", "thigh"),
        "side": ("left", "right", "midline"),
        "made of": ("lot A7", "profile slow"),
    }
    values = {
        part: tuple(KnownValue(word, word) for word in words) for part, words in plain.items()
    }
    values["department"] = (
        KnownValue("LC", "Lanternfield College"),
        KnownValue("D2", "de Marsh [/x] Institute"),
    )
    values["team"] = (
        KnownValue("LC-WSO", "women's soccer at Lanternfield College", "LC"),
        KnownValue("LC-WSO2", "women's soccer at Lanternfield College", "LC"),
        KnownValue("D2-MIH", "men's ice hockey at de Marsh [/x] Institute", "D2"),
        KnownValue("lc-wso3", "mixed soccer at Lanternfield College", "LC"),
        KnownValue("LC-WSO3", "men's soccer at Lanternfield College", "LC"),
    )
    usual = {
        "values": values, "first_day": date(2025, 8, 20), "last_day": date(2026, 11, 14),
        "sessions": 120, "guards": 40, "kinds_made": ("shin", "wrist"),
        "covers": {"shin": ("lower leg",), "wrist": ("wrist",)},
    }  # fmt: skip
    return ScopeValues(**(usual | changes))


NOTHING = known(
    values={}, first_day=None, last_day=None, sessions=0, guards=0, kinds_made=(), covers={}
)
