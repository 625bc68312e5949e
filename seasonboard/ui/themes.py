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


DARK_COLOURS: Mapping[str, str] = {
    "ground": "#14191f",
    "text": "#e4e7ea",
    "quiet": "#9aa5b1",
    "hairline": "#808c98",
    "guarded": "#56b4e9",
    "bare": "#e69f00",
    "guarded-tint": "#173449",
    "bare-tint": "#3d3016",
    "both-tint": "#34393b",
    "chosen": "#26313c",
    "chosen-text": "#ffffff",
    "accent": "#d693b8",
}
LIGHT_COLOURS: Mapping[str, str] = {
    "ground": "#fbfaf7",
    "text": "#20262c",
    "quiet": "#545f6a",
    "hairline": "#6c7782",
    "guarded": "#00639b",
    "bare": "#a04600",
    "guarded-tint": "#d5e8f5",
    "bare-tint": "#fae3d1",
    "both-tint": "#e3dcdc",
    "chosen": "#e2e6ea",
    "chosen-text": "#000000",
    "accent": "#8d3b68",
}
PROJECTOR_COLOURS: Mapping[str, str] = {
    "ground": "#ffffff",
    "text": "#000000",
    "quiet": "#404040",
    "hairline": "#595959",
    "guarded": "#00528a",
    "bare": "#873600",
    "guarded-tint": "#cfe6f7",
    "bare-tint": "#fbdcc4",
    "both-tint": "#dcd4d4",
    "chosen": "#dfe3e8",
    "chosen-text": "#000000",
    "accent": "#7a1f57",
}


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


COLOURS: Mapping[str, Mapping[str, str]] = {
    DARK: DARK_COLOURS,
    LIGHT: LIGHT_COLOURS,
    PROJECTOR: PROJECTOR_COLOURS,
}
"""The colours of each theme by their names; the first theme is used first."""
THEMES = tuple(_theme(name, colours, dark=name == DARK) for name, colours in COLOURS.items())
"""Every theme, in the order in which one key walks through them."""
BY_NAME: Mapping[str, str] = {"dark": DARK, "light": LIGHT, "projector": PROJECTOR}
"""The themes by what the settings call them."""


def next_theme(name: str) -> str:
    """Return the theme after one; after the last, and after one that is not ours, the first."""
    names = list(COLOURS)
    return names[(names.index(name) + 1) % len(names)] if name in names else names[0]
