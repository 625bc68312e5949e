"""Every colour of the board: for dark terminals, for light ones, and for a projector.

The two groups are the blue and the orange (dark) or vermilion (light) of Okabe & Ito (2008),
"Color Universal Design", which people with any common colour vision tell apart; on a light ground
both are darkened until they can be read as text, on a projector, which washes colours out, until
they stand out by 7:1. Nothing is told by colour alone.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from textual.theme import Theme

DARK = "seasonboard-dark"
LIGHT = "seasonboard-light"
PROJECTOR = "seasonboard-projector"


@dataclass(frozen=True, slots=True)
class Ink:
    """Styles that pictures are drawn with, as Rich style strings.

    `tinted` says that areas may be told by their background; without it, strokes tell them.
    """

    guarded: str = ""
    bare: str = ""
    quiet: str = ""
    strong: str = "bold"
    rule: str = ""
    guarded_tint: str = ""
    bare_tint: str = ""
    both_tint: str = ""
    tinted: bool = False

    def group(self, *, guarded: bool) -> str:
        """Return the style of one group's line and words."""
        return self.guarded if guarded else self.bare


PLAIN = Ink()
"""Drawing without colour."""


def ink(variables: Mapping[str, str], *, tinted: bool) -> Ink:
    """Return the styles of the theme whose variables these are."""
    return Ink(
        guarded=variables["guarded"],
        bare=variables["bare"],
        quiet=variables["quiet"],
        rule=variables["hairline"],
        guarded_tint=f"on {variables['guarded-tint']}",
        bare_tint=f"on {variables['bare-tint']}",
        both_tint=f"on {variables['both-tint']}",
        tinted=tinted,
    )


_COLOURS = {  # in the dark theme, the light one, and on a projector
    "ground": ("#14191f", "#fbfaf7", "#ffffff"),
    "text": ("#e4e7ea", "#20262c", "#000000"),
    "quiet": ("#9aa5b1", "#545f6a", "#404040"),
    "hairline": ("#808c98", "#6c7782", "#595959"),
    "guarded": ("#56b4e9", "#00639b", "#00528a"),
    "bare": ("#e69f00", "#a04600", "#873600"),
    "guarded-tint": ("#173449", "#d5e8f5", "#cfe6f7"),
    "bare-tint": ("#3d3016", "#fae3d1", "#fbdcc4"),
    "both-tint": ("#34393b", "#e3dcdc", "#dcd4d4"),
    "chosen": ("#26313c", "#e2e6ea", "#dfe3e8"),
    "chosen-text": ("#ffffff", "#000000", "#000000"),
    "accent": ("#d693b8", "#8d3b68", "#7a1f57"),
}
COLOURS: Mapping[str, Mapping[str, str]] = {
    theme: {name: of_themes[number] for name, of_themes in _COLOURS.items()}
    for number, theme in enumerate((DARK, LIGHT, PROJECTOR))
}
"""The colours of each theme by their names; the first theme is used first."""
DARK_COLOURS, LIGHT_COLOURS = COLOURS[DARK], COLOURS[LIGHT]


def _theme(name: str, colours: Mapping[str, str], *, dark: bool) -> Theme:
    return Theme(
        name=name,
        primary=colours["guarded"],
        secondary=colours["bare"],
        accent=colours["accent"],
        warning=colours["bare"],
        error=colours["accent"],
        success=colours["guarded"],
        foreground=colours["text"],
        background=colours["ground"],
        surface=colours["ground"],
        panel=colours["chosen"],
        dark=dark,
        variables={
            **colours,
            "footer-background": colours["ground"],
            "footer-foreground": colours["text"],
            "footer-key-foreground": colours["guarded"],
            "footer-description-foreground": colours["quiet"],
            "block-cursor-background": colours["chosen"],
            "block-cursor-foreground": colours["chosen-text"],
            "block-cursor-text-style": "bold",
            "block-cursor-blurred-background": colours["ground"],
            "block-cursor-blurred-foreground": colours["text"],
            "border": colours["hairline"],
            "border-blurred": colours["hairline"],
            "scrollbar": colours["hairline"],
            "scrollbar-background": colours["ground"],
            "scrollbar-corner-color": colours["ground"],
            "input-cursor-background": colours["text"],
            "input-cursor-foreground": colours["ground"],
        },
    )


THEMES = tuple(_theme(name, colours, dark=name == DARK) for name, colours in COLOURS.items())
"""Every theme, in the order in which one key walks through them."""
BY_NAME: Mapping[str, str] = {"dark": DARK, "light": LIGHT, "projector": PROJECTOR}
"""The themes by what the settings call them."""


def next_theme(name: str) -> str:
    """Return the theme after one; after the last, and after one that is not ours, the first."""
    names = list(COLOURS)
    return names[(names.index(name) + 1) % len(names)] if name in names else names[0]
