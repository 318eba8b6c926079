"""The end of a pipe with a plate in slots: what is left of it in pull, through the slots alone.

AISC 360-22 D3 and Table D3.1 (from memory of the standard). Lengths m; numbers or arrays.
"""

from dataclasses import dataclass

from frame.checks.check import Numbers
from frame.checks.sheet import Sheet


@dataclass(frozen=True, slots=True, kw_only=True)
class SlottedEnd:
    """Two slots across a pipe's end, `length` long and `width` wide, for a `plate` thick [m].

    The plate is welded along them. `expected`: by the fit to tests, else by the rule for every
    shape, which is less.
    """

    length: Numbers
    width: Numbers
    plate: Numbers
    expected: bool = False


def net_share(sheet: Sheet, end: SlottedEnd) -> Numbers:
    """Effective net area over gross area [1] of a pipe that a sheet has `begun`.

    The slots take out 2 s t; the rest pulls on the plate along the slots only. Case 2 of Table
    D3.1: U = 1 - x / l, x = D/pi the middle of half a thin ring off the plate's middle. Case 5
    since 2016, fitted to tests of slotted round pipe: U = (1 + (x / l)^3.2)^-10, x to the plate's
    face, is what is expected. For slots no shorter than the pipe is thick; nothing under x.
    """
    sheet.given("l", "length of the slots", end.length, "m")
    sheet.given("s", "width of the slots", end.width, "m")
    sheet.work("An", "net area", "A - 2*t*s", "m2", "AISC 360-22 B4.3b")
    words, source = "middle of half the ring off the plate", "AISC 360-22 Table D3.1"
    if end.expected:
        sheet.given("b", "plate in the slots", end.plate, "m")
        sheet.work("x", words, "max(D/pi - b/2, 0)", "m", f"{source} case 5")
        sheet.work("lag", "shear lag", "(1 + (x/l)^3.2)^(-10)", "", f"{source} case 5")
    else:
        sheet.work("x", words, "D/pi", "m", source)
        sheet.work("lag", "shear lag", "max(1 - x/l, 0)", "", f"{source} case 2")
    return sheet.work("net", "effective net area over gross area", "lag*An/A", "")
