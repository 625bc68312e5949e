"""Topics as a manual page: headings in roff, what stands under them as it is wrapped here."""

import re
from collections.abc import Iterable

from seasonboard.help.rendering import rendered

_WIDTH = 72


def man_page(name: str, version: str, summary: str, sections: Iterable[str]) -> str:
    """Return a manual page of section 1; each section is Markdown with its title as first line."""
    lines = [f'.TH {name.upper()} 1 "" "{name} {version}"', ".SH NAME"]
    lines += [f"{name} \\- {_escaped(summary)}", ".SH SYNOPSIS", f"{name} [OPTIONS] [COMMAND]"]
    for section in sections:
        for number, part in enumerate(re.split(r"^#+ ", section, flags=re.MULTILINE)[1:]):
            title, _, body = part.partition("\n")
            text = _escaped(rendered(body, _WIDTH, styled=False)).strip("\n")
            shown = re.sub(r"`([^`\n]+)`", r"\\fB\1\\fR", text)
            heading = f'.SS "{_escaped(title)}"' if number else f'.SH "{_escaped(title.upper())}"'
            lines += [heading, ".nf", shown, ".fi"]
    return "\n".join(lines) + "\n"


def _escaped(text: str) -> str:
    """Return text that roff takes as text: no escape, no request."""
    text = text.replace("\\", "\\e").replace("-", "\\-").replace('"', "\\(dq")
    return re.sub(r"^(?=[.'])", r"\\&", text, flags=re.MULTILINE)
