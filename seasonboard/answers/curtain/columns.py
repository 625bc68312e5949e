"""What stands behind the curtain: which columns of the questions name a person, and how.

Text in a column that is named nowhere here is covered: a new question shows nothing by oversight.
"""

COVERED = "covered"
"""What stands in the place of text that may name a person."""

A_STORE = "a store"
"""What is open, in words that do not tell the file's own name."""

KEYS = {
    "athlete": "athlete",
    "guard": "guard",
    "first_guard": "guard",
    "remake_of": "guard",
    "remade_by": "guard",
    "successor": "guard",
    "guards": "guard",
    "injury": "injury",
    "open_injury": "injury",
    "offer": "offer",
    "decision": "decision",
}
"""Columns of keys, and what they are keys of: keys may carry names, so they become codes."""

MIXED = {
    ("table_name", "key"): {
        "roster": "athlete",
        "guards": "guard",
        "stages": "guard",
        "wear": "guard",
        "injuries": "injury",
        "offers": "offer",
        "decisions": "decision",
    },
    ("what", "item"): {
        "stage": "guard",
        "offer": "offer",
        "injury": "injury",
        "return": "injury",
    },
}
"""Columns whose keys are of what another column says; of what is not listed they are plain."""

PLAIN = frozenset(
    {
        *(
            "answer",
            "area",
            "because",
            "belongs",
            "comparison",
            "counted",
            "days_lost",
            "department",
        ),
        *("department_name", "ending", "here", "in_session", "injured", "kind", "last_part"),
        *("last_reason", "made_as", "next_session", "open_area", "open_side", "parts", "plan"),
        *("position", "position_group", "printer", "purpose", "counts_as", "successor_reason"),
        *("remake_reason", "returned_area", "scan_method", "season", "season_part", "session"),
        *("setting", "sex", "side", "sport", "stage", "state", "status", "stratum", "table_name"),
        *("team", "teams", "time_zone", "what", "why", "word", "worn"),
    }
)
"""Text columns that are shown as they are: closed words, and keys of what is no person."""

PLAIN_IN = frozenset({("departments/teams", "name"), ("remakes/guards", "reason")})
"""Columns that are plain in one question, though their name says otherwise elsewhere."""

LEFT_EMPTY = frozenset({"jersey", "label", "next_label", "next_game_label", "note"})
"""Text that is left out rather than marked as covered: sentences read better without."""

TYPED = frozenset({"position", "printer", "session", "next_session", "in_session", "stratum"})
"""Plain columns that were typed freely: covered where they hold an athlete's name or key."""

BY_PERSON = {
    "roster/athletes": ("athlete",),
    "roster/places": ("athlete",),
    "roster/guards": ("athlete", "guard"),
    "take_up/offers": ("athlete",),
    "orders/orders": ("guard",),
    "orders/of_group": ("guard",),
    "rows/injuries": ("injury",),
}
"""Questions whose rows come in the order of keys: in that of the codes, or the order would tell."""
