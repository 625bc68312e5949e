"""Names that are nearly one, letter by letter."""

import re
import unicodedata


def folded(name: str) -> str:
    """Return a name without accents, capitals, marks and the order of its words."""
    plain = unicodedata.normalize("NFKD", name.lower())
    plain = "".join(c for c in plain if not unicodedata.combining(c))
    return " ".join(sorted(re.findall(r"[^\W_]+", plain)))


def is_long(name: str) -> bool:
    """Say whether a folded name is long enough, without figures and initials, to be near one."""
    words = name.split()
    return len(name) >= 8 and not re.search(r"\d", name) and all(len(w) > 1 for w in words)


def one_apart(a: str, b: str) -> bool:
    """Say whether one letter changed, missing, or two changed places, turns one into the other."""
    if len(a) == len(b):
        apart = [n for n in range(len(a)) if a[n] != b[n]]
        swapped = len(apart) == 2 and apart[1] == apart[0] + 1
        return len(apart) == 1 or (
            swapped and a[apart[0]] == b[apart[1]] and a[apart[1]] == b[apart[0]]
        )
    short, long = sorted((a, b), key=len)
    return len(long) == len(short) + 1 and any(
        long[:n] + long[n + 1 :] == short for n in range(len(long))
    )
