import re

import numpy as np
import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg
from pyproj import Geod, Proj, Transformer

import navlib.waters as waters
from navlib.sheets.chart import buoys, dangers, labels, lights, lines, parts, signs, standing
from navlib.sheets.chart.key import GROUPS
from navlib.sheets.ground import survey
from navlib.sheets.legend import legend
from navlib.sheets.paper import Page, blank
from navlib.sheets.window import Box, MercatorWindow

WATER = waters.load()
MM = 25.4 / 72
TRUE_AT = 58.75


def chart(easting, northing, scale, width=150.0, height=120.0):
    lat, lon = WATER.lat_lon((easting, northing))
    frame = Box(10.0, 10.0, 10.0 + width, 10.0 + height)
    return MercatorWindow(WATER.settings.grid, lat, lon, TRUE_AT, scale, frame)


def drawn(window):
    figure, axes = blank(window.frame.right + 10, window.frame.bottom + 10)
    signs.draw_sectors(axes, WATER, window, axes.patch)
    signs.draw_line_features(axes, WATER, window, axes.patch)
    signs.draw_signs(axes, WATER, window, axes.patch)
    return Page(window.frame.right + 10, window.frame.bottom + 10, "", figure).svg()


def group(svg, id):
    """The points of each path in a group of the drawing, in millimetres."""
    inner = re.search(rf'<g id="{re.escape(id)}">(.*?)\n   </g>', svg, re.S)[1]
    used = re.search(r'<use [^>]*x="([-\d.]+)" y="([-\d.]+)"', inner)
    by = np.array(used.groups(), float) * MM if used else np.zeros(2)
    return [points(d) + by for d in re.findall(r' d="([^"]*)"', inner)]


def points(path):
    place, found = np.zeros(2), []
    for command, numbers in re.findall(r"([A-Za-z])([^A-Za-z]*)", path):
        pairs = np.array(re.findall(r"-?\d*\.?\d+", numbers), float).reshape(-1, 2)
        step = {"M": 1, "l": 1, "q": 2, "c": 3}.get(command, 1)
        for k in range(0, len(pairs), step):
            bends = pairs[k : k + step] + (0 if command == "M" else place)
            found += list(bends * MM)
            place = bends[-1]
    return np.array(found)


def spot(window, place):
    """Where pyproj says that a place on the grid lies on the sheet."""
    lon, lat = Transformer.from_crs(27700, 4326, always_xy=True).transform(*place)
    mercator = Proj(proj="merc", lat_ts=TRUE_AT, lon_0=window.lon, ellps="WGS84")
    east, north = mercator(lon, lat)
    x, y = window.frame.middle
    mm = 1000 / window.scale
    return x + east * mm, y - (north - mercator(window.lon, window.lat)[1]) * mm


# Published rules --------------------------------------------------------------------------------

# IALA Maritime Buoyage System (R1001), region A, from memory: the topmark from the top down, what
# colours follow from the top down, and the letters that INT 1 writes for them.
IALA = [
    ("north cardinal", ["up", "up"], ["black", "yellow"], "BY"),
    ("east cardinal", ["up", "down"], ["black", "yellow", "black"], "BYB"),
    ("south cardinal", ["down", "down"], ["yellow", "black"], "YB"),
    ("west cardinal", ["down", "up"], ["yellow", "black", "yellow"], "YBY"),
    ("isolated danger", ["ball", "ball"], ["black", "red", "black"], "BRB"),
    ("safe water", ["ball"], ["white", "red", "white", "red"], "RW"),
    ("port hand", ["can"], ["red"], "R"),
    ("starboard hand", ["up"], ["green"], "G"),
    ("special", ["x"], ["yellow"], "Y"),
    ("emergency wreck", ["x"], ["blue", "yellow", "blue", "yellow"], "BuY"),
]
NAMES = {
    buoys.BLACK: "black",
    buoys.YELLOW: "yellow",
    buoys.RED: "red",
    buoys.GREEN: "green",
    buoys.WHITE: "white",
    buoys.BLUE: "blue",
}


def figure_of(outline):
    """What a topmark's shape looks like."""
    across, down = outline[:-1, 0], outline[:-1, 1]
    if len(outline) == 4:
        return "up" if (np.abs(down - down.max()) < 1e-9).sum() == 2 else "down"
    return "can" if len(outline) == 5 and np.ptp(across) > 0 else "ball"


@pytest.mark.parametrize(("kind", "topmark", "colours", "letters"), IALA)
def test_marks_look_as_region_a_has_them(kind, topmark, colours, letters):
    sign = buoys.buoy(kind)
    staff = next(
        k for k, p in enumerate(sign) if p.ink != "none" and len(p.path.vertices) == 2 and k
    )
    body = [p for p in sign[1:staff] if p.fill != "none"]
    middles = [p.path.vertices.mean(axis=0) for p in body]
    order = np.argsort([m[0] if buoys.MARKS[kind].upright else m[1] for m in middles])
    assert [NAMES[body[k].fill] for k in order] == colours
    above = [p for p in sign[staff + 1 :] if p.path.vertices[:, 1].max() < -1.5]
    shapes = [p for p in above if p.fill != "none"]
    shapes.sort(key=lambda p: p.path.vertices[:, 1].min())
    assert [figure_of(p.path.vertices) for p in shapes] == [t for t in topmark if t != "x"]
    assert (len(above) == 4) == (topmark == ["x"])
    assert buoys.MARKS[kind].letters == letters


def test_a_pair_of_cones_meets_as_its_name_has_it():
    """East: base to base, west: point to point (IALA, as above)."""
    for kind, wide in (("east cardinal", True), ("west cardinal", False)):
        cones = [p for p in buoys.buoy(kind) if len(p.path.vertices) == 4 and p.fill == buoys.BLACK]
        upper, lower = sorted((p.path.vertices for p in cones), key=lambda v: v[:, 1].min())
        at_upper_foot = np.ptp(upper[np.isclose(upper[:, 1], upper[:, 1].max()), 0])
        at_lower_top = np.ptp(lower[np.isclose(lower[:, 1], lower[:, 1].min()), 0])
        assert (at_upper_foot > 1.0 and at_lower_top > 1.0) == wide


@pytest.mark.parametrize(
    ("height", "expected"),
    [
        (6.4, "islet"),
        (4.8, "islet"),
        (4.7, "covers and uncovers"),
        (0.6, "covers and uncovers"),
        (0.1, "awash"),
        (0.0, "awash"),
        (-0.4, "underwater"),
    ],
)
def test_rocks_are_classed_as_the_list_of_symbols_words_it(height, expected):
    """INT 1, K 10 to K 13; mean high water springs here is 4.8 m above chart datum."""
    assert dangers.rock_class(height, WATER.settings.levels) == expected


# Where things are -------------------------------------------------------------------------------


@pytest.mark.parametrize("scale", [75_000, 25_000])
def test_signs_stand_at_their_places(scale):
    window = chart(95_500, 999_500, scale)
    svg, factor = drawn(window), 1.15 if scale == 25_000 else 1.0
    shown = signs.signed_features(WATER, window)
    assert len(shown) > (40 if scale == 75_000 else 12)
    for one in shown:
        x, y = spot(window, one.place)
        outline = np.vstack(group(svg, f"sign-{one.id}"))
        corners = factor * parts.outline(one.sign) + np.array([x, y])
        assert outline.min(axis=0) == pytest.approx(corners.min(axis=0), abs=0.1)
        assert outline.max(axis=0) == pytest.approx(corners.max(axis=0), abs=0.1)
        box = signs.sign_box(one, window)
        assert (box.left, box.top) == pytest.approx(outline.min(axis=0), abs=0.1)


def test_the_small_circle_of_a_mark_is_at_its_place():
    window = chart(95_500, 999_500, 75_000)
    svg, seen = drawn(window), 0
    for feature in WATER.of_kind("buoy", "beacon", "daymark", "mast", "chimney", "church"):
        x, y = spot(window, feature.place)
        if not window.frame.holds(x, y, 3.0):
            continue
        rings = [p for p in group(svg, f"sign-{feature.id}") if np.ptp(p[:, 0]) < 0.8 < len(p) / 20]
        near = [p for p in rings if np.ptp(p, axis=0) == pytest.approx((0.76, 0.76), abs=0.02)]
        middles = [(p.min(axis=0) + p.max(axis=0)) / 2 for p in near]
        assert any(np.hypot(*(m - (x, y))) < 0.1 for m in middles), feature.id
        seen += 1
    assert seen >= 10


@pytest.mark.parametrize("scale", [75_000, 25_000])
def test_sector_arcs_stand_on_their_bearings_from_seaward(scale):
    """INT 1, P 40: a bearing of B from seaward means that the observer lies towards B + 180."""
    sectored = [f for f in WATER.of_kind("light") if f.sectors]
    assert any(len(f.sectors) >= 3 for f in sectored)
    for light in sectored:
        window = chart(*light.place, scale)
        svg, place = drawn(window), np.array(spot(window, light.place))
        ends = [a % 360 for s in light.sectors for a in s[:2]]
        for number, (start, end, _) in enumerate(light.sectors):
            (arc,) = group(svg, f"arc-{light.id}-{number}")
            away = arc - place
            radius = np.hypot(away[:, 0], away[:, 1])
            assert radius == pytest.approx(np.full(len(arc), radius[0]), abs=0.03)
            to_light = np.degrees(np.arctan2(-away[:, 0], away[:, 1])) % 360
            assert to_light[0] == pytest.approx(start % 360, abs=0.2)
            assert to_light[-1] == pytest.approx(end % 360, abs=0.2)
            middle = (start + ((end - start) % 360) / 2) % 360
            assert np.abs((to_light - middle + 180) % 360 - 180).min() < 3.0
        for limit in group(svg, f"limits-{light.id}"):
            along = limit[0] - limit[-1]
            bearing = np.degrees(np.arctan2(along[0], -along[1])) % 360
            assert min(abs((bearing - e + 180) % 360 - 180) for e in ends) < 0.3


def test_a_leading_line_runs_over_its_marks_and_says_its_bearing():
    (line,) = WATER.of_kind("leading line")
    window = chart(95_500, 999_000, 75_000)
    (firm,) = group(drawn(window), f"line-{line.id}")
    sea, rear = (np.array(spot(window, line.parts[0][k])) for k in (0, -1))
    assert firm[0] == pytest.approx(sea, abs=0.1)
    way = (rear - sea) / np.hypot(*(rear - sea))
    for mark in WATER.of_kind("daymark"):
        off = np.array(spot(window, mark.place)) - sea
        assert abs(off[0] * way[1] - off[1] * way[0]) < 0.15
    (lat1, lon1), (lat2, lon2) = (WATER.lat_lon(line.parts[0][k]) for k in (0, -1))
    true = Geod(ellps="WGS84").inv(lon1, lat1, lon2, lat2)[0] % 360
    words = [w.text for w in labels.wishes(WATER, survey(WATER, window), np.empty((0, 2)))]
    (said,) = [w for w in words if w.startswith("Leading")]
    assert int(re.search(r"(\d{3})°", said)[1]) == pytest.approx(true, abs=0.6)


# The height field decides -----------------------------------------------------------------------


@pytest.mark.parametrize("name", waters.shipped())
def test_rocks_agree_with_the_height_field(name):
    water = waters.load(name)
    levels, reach = water.settings.levels, 4 * water.height_field.spacing
    rocks = dangers.field_rocks(water)
    assert len(rocks) >= 3
    turn = np.linspace(0, 2 * np.pi, 16, endpoint=False)
    for rock in rocks:
        height = water.height(rock.place)
        assert -3.0 < height < levels.mhws
        around = water.height_field.at(
            rock.easting + reach * np.cos(turn), rock.northing + reach * np.sin(turn)
        )
        assert np.all(around < min(height - 0.5, 0.5))
    for rock in (*rocks, *water.of_kind("rock")):
        height = water.height(rock.place)
        sign = standing.sign_of(water, rock)
        strokes = [p for p in sign if len(p.path.vertices) == 2]
        ringed = any(p.dashes for p in sign)
        if height > 0.2 and not any(f.place == rock.place for f in water.of_kind("beacon")):
            assert (len(strokes), ringed) == (4, False)
        elif height <= 0.2:
            assert (len(strokes), ringed) == (2, True)


@pytest.mark.parametrize("name", waters.shipped())
def test_heights_are_above_high_water_and_the_maps_above_mean_sea_level(name):
    water = waters.load(name)
    levels, seen = water.settings.levels, 0
    for feature in water.of_kind("summit", "spot height"):
        printed = int(labels.label(water, feature).split()[-1])
        drop = levels.mhws - levels.msl
        assert printed == pytest.approx(feature.map_height - drop, abs=0.51)
        assert printed == pytest.approx(water.height(feature.place) - levels.mhws, abs=1.1)
        seen += 1
    assert seen >= 5


def test_names_of_conspicuous_marks_are_in_capitals():
    texts = {f.id: labels.label(WATER, f) for f in WATER.features}
    assert texts["saltpan-chimney"].startswith("SALTPAN CHY (")
    assert texts["wether-church"].startswith("WETHER CHURCH SPIRE (")
    assert texts["voehead-chapel"] == "Voehead Chapel"
    top = WATER.top(WATER.feature("radio-mast")) - WATER.settings.levels.mhws
    assert texts["radio-mast"] == f"RADIO MAST ({top:.0f})"


# Nothing is forgotten ---------------------------------------------------------------------------


def test_every_kind_of_feature_is_on_the_chart_or_left_out_on_purpose():
    shown = {*standing.SIGNED, *lines.STROKES, *labels.NAMED_ABOUT, "leading line"}
    shown |= {"buildings", "loch"}
    assert shown | set(lines.LEFT_OUT) == set(waters.KINDS)
    assert not shown & set(lines.LEFT_OUT)


def test_sectors_are_told_without_colour():
    looks = list(lights._LOOK.values())
    assert set(lights._LOOK) == {"W", "R", "G"}
    assert len({dashes for _, _, dashes in looks}) == 3


@pytest.mark.parametrize("kind", ["sea chart", "land map"])
def test_the_legend_fits_its_page_and_its_words_never_touch(kind):
    page = legend(kind)
    axes = page._figure.axes[0]
    renderer = FigureCanvasAgg(page._figure).get_renderer()
    boxes = [t.get_window_extent(renderer) for t in axes.texts if t.get_text()]
    limits = page._figure.bbox
    for k, box in enumerate(boxes):
        assert limits.x0 <= box.x0 < box.x1 <= limits.x1
        assert limits.y0 <= box.y0 < box.y1 <= limits.y1
        assert not any(box.padded(-0.6).overlaps(b.padded(-0.6)) for b in boxes[k + 1 :])
    assert page.pdf().startswith(b"%PDF")
    assert "not for navigation" in page.alt


def test_the_legend_shows_every_mark_and_names_no_number_twice_wrongly():
    said = [e for entries in GROUPS.values() for e in entries]
    assert sum(e.number == "Q 130" for e in said) >= len(buoys.MARKS)
    assert {"K 10", "K 11", "K 12", "K 13", "P 40", "B 82"} <= {e.number for e in said}
    with pytest.raises(ValueError, match="sea chart"):
        legend("road atlas")


def test_signs_are_drawn_larger_at_large_scales():
    assert parts.size(chart(95_000, 999_000, 25_000)) > parts.size(chart(95_000, 999_000, 75_000))
