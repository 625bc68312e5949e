"""Markdown as roff, for the manual page."""

import re

from seasonboard.help.rendering import rendered

_WIDTH = 72
_SET_AS_IT_IS = ("|", "```")
_HEADING = re.compile(r"^#+ (.*)")


def man_page(name: str, version: str, summary: str, sections: list[str]) -> str:
    """Return a manual page of section 1.

    Args:
        name: The program.
        version: Its version.
        summary: What it is, in one line.
        sections: Markdown, each with its title as first line.
    """
    lines = [
        f'.TH {name.upper()} 1 "" "{name} {version}"',
        ".SH NAME",
        f"{name} \\- {_escaped(summary)}",
    ]
    for section in sections:
        title, _, body = section.partition("\n")
        lines += [f'.SH "{_escaped(title.lstrip("# ")).upper()}"', *roff(body)]
    return "\n".join(lines) + "\n"


def roff(markdown: str) -> list[str]:
    """Return Markdown as lines of roff: headings, paragraphs, lists; tables as they are drawn."""
    lines: list[str] = []
    for block in re.split(r"\n{2,}", _with_whole_code(markdown).strip()):
        heading = _HEADING.match(block)
        if heading:
            lines.append(f'.SS "{_escaped(heading[1])}"')
        elif block.startswith(_SET_AS_IT_IS):
            shown = rendered(block.replace("\0", "\n\n"), _WIDTH, styled=False)
            lines += [".PP", ".nf", *(_escaped(line) for line in shown.splitlines()), ".fi"]
        elif block.startswith("- "):
            for item in re.split(r"\n(?=- )", block):
                lines += [".IP \\(bu 2", _inline(item.removeprefix("- "))]
        elif block:
            lines += [".PP", _inline(block)]
    return lines


def _with_whole_code(markdown: str) -> str:
    """Keep the empty lines of code from parting it."""
    code = re.compile(r"^```.*?^```$", re.MULTILINE | re.DOTALL)
    return code.sub(lambda match: match[0].replace("\n\n", "\0"), markdown)


def _inline(text: str) -> str:
    """Return a paragraph with code in bold; one line, for roff wraps it."""
    text = _escaped(" ".join(text.split()).replace("**", ""))
    text = re.sub(r"\[([^\]]+)\]\(([^)]+)\)", r"\1 (\2)", text)
    return re.sub(r"`([^`]+)`", r"\\fB\1\\fR", text)


def _escaped(text: str) -> str:
    """Return text that roff takes as text: no escape, no request."""
    text = text.replace("\\", "\\e").replace("-", "\\-").replace('"', "\\(dq")
    return f"\\&{text}" if text.startswith((".", "'")) else text
