"""What stands around the chart: warning, title of an extract, bars, notes, the diamonds' tables."""

from typing import Any

from matplotlib.axes import Axes
from matplotlib.patches import PathPatch, Rectangle
from matplotlib.path import Path

from navlib import latlon
from navlib.sheets import bars, style
from navlib.sheets.chart import frame as frames
from navlib.sheets.chart import title
from navlib.sheets.chart.diamonds import diamonds, draw_signs_at
from navlib.sheets.chart.glyphs import figures, moved, together
from navlib.sheets.lettering import draw_names
from navlib.sheets.window import Box, MercatorWindow
from navlib.units import NM
from navlib.waters import StreamRow, Water

_FONT: dict[str, Any] = {"family": style.SANS, "color": style.CHART_INK, "parse_math": False}
_PITCH = 2.32  # millimetres between the rows of a table
_COLUMNS = (4.4, 12.4, 20.0, 27.6)  # right edges of a table's columns


def draw_head(axes: Axes, water: Water, window: MercatorWindow, width: float, whole: bool) -> None:
    """Write the warning across the top and, on an extract, the title and scale."""
    bars.draw_warning(axes, width)
    if whole:
        return
    f = window.frame
    axes.text(
        f.left - 3,
        13.6,
        water.settings.title,
        size=13,
        weight="bold",
        family=style.SERIF,
        color=style.CHART_INK,
        parse_math=False,
    )
    axes.text(f.left - 3, 18.0, title.scale_words(water, window.scale), **_FONT, size=7.2)
    middle = tuple(float(v) for v in window.grid_at(*f.middle))
    said = [f"Variation {water.rose((middle[0], middle[1])).write()}"]
    said += [f"Training rose {rose.write()}" for rose in water.settings.training_roses]
    for k, text in enumerate(said[:2]):
        axes.text(f.right + 3, 13.6 + 4.4 * k, text, **_FONT, size=7.2, ha="right")


def draw_foot(axes: Axes, water: Water, window: MercatorWindow, layout: frames.Layout) -> None:
    """Draw the check bar, scale bars of a plan, and what an extract says in place of a title."""
    f = window.frame
    y = f.bottom + (12.5 if layout.whole else 13.5)
    aside = f.left + 112.0
    if layout.plan:
        at = (aside, y) if layout.whole else (f.left, y)
        for metres, unit, down in ((1000.0, "km", 0.0), (NM, "nautical miles", 7.6)):
            unit_mm = metres * 1000 / window.scale
            spare = 104.0 - (8 if unit == "km" else 24)
            if 2 * unit_mm > spare:
                bars.short_bar(axes, at[0], at[1] + down, unit_mm, unit, spare)
            else:
                count = max(1, min(5, int(spare / unit_mm) - 1))
                bars.bar(axes, at[0], at[1] + down, unit_mm, count, unit)
        if not layout.whole:
            y += 17.0
    bars.check_bar(axes, f.left, y)
    axes.text(f.left, y + 4.4, bars.CHECK_WORDS, **_FONT, size=5.7)
    miles = (
        "Measure miles on the latitude scale at the side, level with your line: "
        "one minute of latitude is one nautical mile."
    )
    said = [miles] if layout.whole else [miles, *title.notes(water)]
    room = 100.0 if layout.whole else f.width
    for k, line in enumerate(x for note in said for x in title.folded(note, room)):
        axes.text(f.left, y + 7.1 + 2.7 * k, line, **_FONT, size=5.7)


def draw_key(axes: Axes, water: Water, window: MercatorWindow, layout: frames.Layout) -> None:
    """Draw what each tint means, in the foot of a whole sheet, and mean levels if not a plan."""
    f = window.frame
    x, y = f.right - 118.0, f.bottom + 12.0
    tints = (
        (style.CHART_LAND, "land"),
        (style.CHART_DRYING, "dries"),
        (style.CHART_SHALLOW, "0 to 5 m"),
        (style.CHART_MIDDLE, "5 to 10 m"),
        (style.CHART_DEEP, "over 10 m"),
    )
    for k, (colour, text) in enumerate(tints):
        left = x + 24.0 * k
        axes.add_artist(
            Rectangle(
                (left, y), 7.0, 3.2, facecolor=colour, edgecolor=style.CHART_INK, lw=0.4, zorder=11
            )
        )
        axes.text(left + 8.2, y + 1.7, text, **_FONT, size=5.7, va="center_baseline")
    if not layout.plan:
        lines = title.tide_table(water)
        left, (width, height) = f.left + 109.0, title.size(lines)
        if left + width < x:
            box = Box(left, f.bottom + 8.5, left + width, f.bottom + 8.5 + height)
            draw_names(axes, title.set_block(lines, box))
    drawn = f"Drawn for {water.settings.sheet_date:%B %Y}. {water.settings.about}"
    for k, line in enumerate(title.folded(drawn, 118.0)):
        axes.text(x, y + 7.0 + 2.7 * k, line, **_FONT, size=5.7)


def draw_tables(axes: Axes, water: Water, window: MercatorWindow) -> None:
    """Draw the table of each tidal diamond in a column right of the chart, as many as fit."""
    found = diamonds(water)
    if not found:
        return
    f = window.frame
    x, y = f.right + 15.5, f.top - 3.0
    letters: list[Path] = []

    def write(text: str, right: float, bold: bool = False, size: float = 5.6) -> None:
        shape, width, _ = figures(text, size, weight="bold" if bold else "normal")
        letters.append(moved(shape, x + right - width / 2, y))

    head = ["TIDAL STREAMS", "h: hours from high water", f"at {water.tides.standard.name}"]
    head += ["set: degrees true", "sp, np: knots at mean", "springs and neaps"]
    for k, line in enumerate(head):
        write(line, figures(line, 5.6, weight="bold" if k == 0 else "normal")[1], k == 0)
        y += 2.5
    y += 1.0
    signs = []
    for diamond in found:
        if y + 15 * _PITCH + 4 > f.bottom + 10:
            break
        signs.append((diamond.letter, x + 1.9, y + 1.1))
        lat, lon = water.lat_lon(diamond.place)
        for text in (latlon.format_latitude(lat), latlon.format_longitude(lon)):
            write(text, _COLUMNS[-1])
            y += _PITCH
        y += 0.5
        rows = [("h", "set", "sp", "np")]
        rows += [
            (f"{r.hour:+d}" if r.hour else "HW", f"{round(r.set_to) % 360:03d}", *_rates(r))
            for r in water.tides.rows(diamond)
        ]
        for k, row in enumerate(rows):
            for right, text in zip(_COLUMNS, row, strict=True):
                write(text.replace("-", "\u2212"), right, k == 0)
            y += _PITCH
        y += 2.2
    draw_signs_at(axes, signs)
    ink = style.CHART_INK
    axes.add_artist(PathPatch(together(letters), facecolor=ink, edgecolor="none", zorder=11))


def _rates(row: StreamRow) -> tuple[str, str]:
    return f"{row.spring_kn:.1f}", f"{row.neap_kn:.1f}"
