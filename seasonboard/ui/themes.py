"""Every colour of the board, once for dark and once for light terminals.

The two groups are the blue and the orange (dark) or vermilion (light) of Okabe & Ito (2008),
"Color Universal Design", which people with any common colour vision tell apart; on a light ground
the vermilion is darkened until it can be read as text. Nothing is told by colour alone.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from textual.theme import Theme

DARK = "seasonboard-dark"
LIGHT = "seasonboard-light"


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
    "hairline": "#6b7783",
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
    "quiet": "#586470",
    "hairline": "#7c8791",
    "guarded": "#0068a3",
    "bare": "#a94a00",
    "guarded-tint": "#d5e8f5",
    "bare-tint": "#fae3d1",
    "both-tint": "#e3dcdc",
    "chosen": "#e2e6ea",
    "chosen-text": "#000000",
    "accent": "#8d3b68",
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


THEMES = (
    _theme(DARK, DARK_COLOURS, dark=True),
    _theme(LIGHT, LIGHT_COLOURS, dark=False),
)
"""Both themes, the first one used first."""
