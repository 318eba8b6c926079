"""The bracing sheet of a rack: bare beside braced, with what the pictures cannot say in words."""

from matplotlib.figure import Figure

from frame.draw.sheet import View, bracing_sheet
from frame.draw.view import rack_view
from frame.units import show
from frame.verdict.pictured import Pair, Pictured


def rack_sheet(pair: Pair, system: str) -> Figure:
    """Sheet of a pair of pictures; values in `system`, "us" or "metric"."""
    left, right = (_view(pair, one, system) for one in (pair.left, pair.right))
    heading = f"{pair.rack.name}: {pair.left.title} beside {pair.right.title}"
    return bracing_sheet(heading, _case(pair, system), left, right)


def _case(pair: Pair, system: str) -> str:
    site = pair.rack.site
    words = pair.words[0].upper() + pair.words[1:]
    words += f", in a gust of {show(pair.gust, 'speed', system)}"
    if pair.gust == site.service_gust:
        words += ", the service gust, in which sway and swing are judged"
    parts = [words, f"tilt {show(pair.tilt, 'angle', system)}"]
    text = "; ".join([*parts, pair.ground] if pair.ground else parts) + "."
    if pair.gust < site.map_gust:
        more = (site.map_gust / pair.gust) ** 2
        gust = show(site.map_gust, "speed", system)
        text += f" The site's map gust, {gust}, pushes {more:.1f} times as hard as shown."
    return text


def _view(pair: Pair, one: Pictured, system: str) -> View:
    sag = one.sag
    over = "over" if sag.use > 1.0 else "within"
    words = (
        f"Sag in still air {show(abs(sag.still_air), 'movement', system)} at the {sag.where}, "
        f"{over} its limit of {show(sag.limit, 'movement', system)}."
    )
    still = pair.same_rack and one is pair.left
    if not still:
        if one.sway is None:
            words += (
                " In the gust the rack topples: its weight leans it over (not in the drawings)."
            )
        else:
            words += (
                f" From there the gust sways the post top {show(one.sway, 'movement', system)}, "
                "its weight leaning with it (not in the drawings), and turns the beam "
                f"{show(one.turn, 'angle', system)} about the post."
            )
    return rack_view(
        one.block.frame.ideal,
        (one.title, words),
        one.planes,
        (one.displacements, one.tensions, one.block.fitted),
        system,
    )
