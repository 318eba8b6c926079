"""Titles that keep to the sheet, however long the name of a rack is."""

BOLD = 0.0098
"""Width of a bold letter per point of its size [in]."""
LEAST = 0.62
"""Share of the size down to which a title is set smaller in one line; then it takes two [1]."""
HALF = 0.52
"""Share of the size of two lines, which take the height of one [1]."""


def titled(text: str, room: float, size: float) -> tuple[str, float]:
    """Return a title in one line or two, and the size [pt] at which it keeps to `room` [in]."""
    fits = room / (BOLD * len(text))
    if fits >= LEAST * size:
        return text, min(fits, size)
    lines = halves(text)
    longest = max(map(len, lines))
    return "\n".join(lines), min(room / (BOLD * longest), HALF * size)


def halves(text: str) -> list[str]:
    """Break a text into two lines, about as long, between words if it has any near its middle."""
    middle = len(text) // 2
    gaps = [i for i, letter in enumerate(text) if letter == " " and abs(i - middle) < middle / 2]
    at = min(gaps, key=lambda i: abs(i - middle), default=middle)
    return [text[:at].rstrip(), text[at:].lstrip()]
