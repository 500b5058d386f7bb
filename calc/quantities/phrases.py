"""Words as they stand in a sentence: joined to a phrase, or cut to be quoted."""


def joined(words: list[str], last: str = "and") -> str:
    """Return words as a phrase: "a", "a and b", "a, b and c"."""
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} {last} {words[-1]}"


def shorten(text: str, most: int = 40) -> str:
    """Return `text` on one line, cut where it is long, for quoting in a sentence."""
    line = " ".join(text.split())
    return line if len(line) <= most else line[: most - 1] + "…"
