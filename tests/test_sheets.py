import hashlib
import io
import itertools
import json
import re
import shutil
import subprocess
import sys
import zlib

import numpy as np
import pytest
from drawing import MM, group
from hypothesis import given, settings
from hypothesis import strategies as st
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.textpath import TextPath
from PIL import Image
from published import item
from pyproj import Proj, Transformer

import navlib.waters as waters
from navlib.sheets import Cross, PencilLine, land_map, own, style
from navlib.sheets.ground import survey
from navlib.sheets.land import frame, margin
from navlib.sheets.land.relief import relief

WATER = waters.load()
SOUTHERN = waters.load("orrimer")
CORNER = (100_000, 1_000_000)
HARBOUR = (94_500, 999_300)


@pytest.fixture(scope="module")
def sheet():
    return land_map(WATER, CORNER, scale=50_000)


def pdf_lines(sheet):
    """The first and last point of each open line of two or more points in a PDF, in millimetres."""
    found = []
    for stream in re.findall(rb"stream\r?\n(.*?)\r?\nendstream", sheet.pdf(), re.S):
        try:
            text = zlib.decompress(stream).decode("latin-1")
        except zlib.error:
            continue
        for line in re.findall(r"[-\d.]+ [-\d.]+ m\n(?:[-\d.]+ [-\d.]+ l\n)+", text):
            found.append(np.array(re.findall(r"-?[\d.]+", line), float).reshape(-1, 2)[[0, -1]])
    lines = np.array(found) * MM
    lines[..., 1] = sheet.height_mm - lines[..., 1]
    return lines


def texts(sheet):
    return [t for t in sheet._figure.axes[0].texts]


def windows(scale, count, seed, water=WATER):
    rng = np.random.default_rng(seed)
    half_w, half_h = 75 * scale / 1000, 65 * scale / 1000
    west, south, east, north = water.bounds
    for u, v in rng.random((count, 2)):
        yield (
            west + half_w + u * (east - west - 2 * half_w),
            south + half_h + v * (north - south - 2 * half_h),
        )


# Positions, held against pyproj and arithmetic --------------------------------------------------


@pytest.mark.parametrize("scale", [25_000, 50_000])
def test_marks_lie_where_their_latitude_and_longitude_say(scale):
    to_grid = Transformer.from_crs(4326, 27700, always_xy=True)
    shown = [m for m in WATER.marks() if abs(m.easting - 94_500) < 1500]
    shown = [m for m in shown if abs(m.northing - 999_300) < 1500]
    assert len(shown) >= 5
    sheet = land_map(WATER, HARBOUR, scale=scale, marks=[Cross(m.place) for m in shown])
    crosses = group(sheet.svg(), "pencil")
    assert len(crosses) == 2 * len(shown)
    for mark, first, second in zip(shown, crosses[::2], crosses[1::2], strict=True):
        lat, lon = WATER.lat_lon(mark.place)
        e, n = to_grid.transform(lon, lat)
        x = sheet.frame.left + (e - sheet.window.west) / scale * 1000
        y = sheet.frame.top + (sheet.window.north - n) / scale * 1000
        for arm in (first, second):
            assert arm.mean(axis=0) == pytest.approx((x, y), abs=0.1)
        assert sheet.place(*mark.place) == pytest.approx((x, y), abs=0.1)


def grid_to_degrees(water):
    code = {"National Grid": 27700, "UTM zone 2S": 32702}[water.settings.grid.name]
    return Transformer.from_crs(code, 4326, always_xy=True)


@pytest.mark.parametrize(
    ("water", "place", "scale"),
    [(WATER, HARBOUR, 25_000), (WATER, CORNER, 50_000), (SOUTHERN, (400_400, 5_600_400), 25_000)],
)
def test_ticks_of_latitude_and_longitude_stand_on_whole_minutes(water, place, scale):
    sheet = land_map(water, place, scale=scale)
    to_degrees, f, seen = grid_to_degrees(water), sheet.frame, dict.fromkeys("xy", 0)
    for start, end in group(sheet.svg(), "graticule"):
        upright = min(abs(start[1] - f.top), abs(start[1] - f.bottom)) < 0.01
        assert upright or min(abs(start[0] - f.left), abs(start[0] - f.right)) < 0.01
        for spot in (start, end):  # the tick points along its meridian or parallel
            lon, lat = to_degrees.transform(*sheet.grid_at(*spot))
            minutes, metres = (lon * 60, 1852 * np.cos(np.radians(lat))) if upright else (
                lat * 60, 1852)  # fmt: skip
            off_mm = (minutes - round(minutes)) * metres / scale * 1000
            assert off_mm == pytest.approx(0, abs=0.1)
        seen["x" if upright else "y"] += 1
    edge = np.linspace(0, 1, 400)
    corners = [sheet.grid_at(f.left + f.width * t, f.top) for t in edge]
    lons = [to_degrees.transform(*c)[0] * 60 for c in corners]
    assert seen["x"] == pytest.approx(2 * np.ptp(np.floor(lons)), abs=1)
    assert seen["y"] >= 4


@pytest.mark.parametrize("scale", [25_000, 50_000])
def test_ticks_of_the_second_grid_stand_on_its_kilometres(scale):
    sheet = land_map(WATER, HARBOUR, scale=scale)
    to_utm, f = Transformer.from_crs(27700, 32629, always_xy=True), sheet.frame
    ticks = group(sheet.svg(), "second-grid")
    assert len(ticks) >= 4 * (3 if scale == 25_000 else 6)
    for start, _ in ticks:
        e, n = to_utm.transform(*sheet.grid_at(*start))
        upright = min(abs(start[1] - f.top), abs(start[1] - f.bottom)) < 0.01
        km = (e if upright else n) / 1000
        assert (km - round(km)) * 1e6 / scale == pytest.approx(0, abs=0.1)


def test_the_pdf_has_each_line_where_the_svg_has_it(sheet):
    marked = land_map(WATER, HARBOUR, marks=[Cross(m.place) for m in WATER.marks()[:40]])
    for drawn, groups in ((sheet, ("grid",)), (marked, ("pencil", "graticule", "second-grid"))):
        lines = pdf_lines(drawn)
        for name in groups:
            for path in group(drawn.svg(), name):
                inside = [
                    drawn.frame.holds(*p, -2) for p in path[[0, -1]]
                ]  # a PDF leaves out what its clip hides
                if all(inside):
                    off = np.abs(lines - path[[0, -1]]).max(axis=(1, 2)).min()
                    assert off < 0.05, (name, path)


def test_a_pencil_line_measures_what_the_grid_says():
    a, b = WATER.feature("kessoray-head").place, WATER.feature("pintle-point").place
    sheet = land_map(WATER, (95_500, 998_500), marks=[PencilLine(a, b)])
    (start, end), *_ = group(sheet.svg(), "pencil")
    across, down = (end - start) * 25
    assert np.hypot(across, down) == pytest.approx(np.hypot(b[0] - a[0], b[1] - a[1]), abs=2.5)
    bearing = np.degrees(np.arctan2(across, -down)) % 360
    assert bearing == pytest.approx(np.degrees(np.arctan2(b[0] - a[0], b[1] - a[1])) % 360, abs=0.1)


def test_grid_lines_stand_on_the_kilometres(sheet):
    lines = group(sheet.svg(), "grid")
    upright = sorted(line[0, 0] for line in lines if line[0, 0] == line[1, 0])
    level = sorted(line[0, 1] for line in lines if line[0, 1] == line[1, 1])
    f = sheet.frame
    assert len(upright) + len(level) == len(lines)
    assert upright == pytest.approx([f.left + 75 + 20 * k for k in range(-3, 4)], abs=0.02)
    assert level == pytest.approx([f.top + 65 + 20 * k for k in range(-3, 4)], abs=0.02)


@pytest.mark.parametrize("scale", [25_000, 50_000, 10_000])
@pytest.mark.parametrize("width", [112, 150, 240])
def test_bars_are_true(scale, width):
    svg = land_map(WATER, (96_500, 1_002_000), scale=scale, size_mm=(width, 60)).svg()
    check = np.vstack(group(svg, "check-bar"))
    assert np.ptp(check[:, 0]) == pytest.approx(100, abs=0.02)
    mile = item("units.json", "nautical-mile")["expected"]["value"]
    for bar, metres in (("km", 1000), ("nautical-miles", mile)):
        blocks = group(svg, f"bar-{bar}")
        units = np.ptp(np.vstack(blocks)[:, 0]) * scale / 1000 / metres
        assert units >= 0.1
        assert units * 10 == pytest.approx(round(units * 10), abs=0.02)
        assert np.vstack(blocks)[:, 0].max() < width + frame.SIDE


def test_files_have_the_true_size(sheet):
    svg = sheet.svg()
    assert f'width="{sheet.width_mm:g}mm"' in svg
    assert f'height="{sheet.height_mm:g}mm"' in svg
    box = [float(v) for v in re.search(r'viewBox="([^"]*)"', svg)[1].split()]
    assert box == pytest.approx([0, 0, sheet.width_mm / MM, sheet.height_mm / MM], abs=0.01)
    media = re.search(rb"/MediaBox \[ ?([^\]]*)\]", sheet.pdf())[1].split()
    assert [float(v) for v in media] == pytest.approx(box, abs=0.01)
    with Image.open(io.BytesIO(sheet.png(100))) as picture:
        size = np.array([sheet.width_mm, sheet.height_mm]) / 25.4 * 100
        assert np.array(picture.size) == pytest.approx(size, abs=1)


@given(st.floats(84_000, 109_000), st.floats(992_000, 1_012_000))
def test_there_and_back(sheet, e, n):
    assert sheet.grid_at(*sheet.place(e, n)) == pytest.approx((e, n), abs=1e-6)


def test_shows_knows_what_lies_in_the_frame(sheet):
    assert sheet.shows(*CORNER)
    assert sheet.shows(CORNER[0] + 3749, CORNER[1])
    assert not sheet.shows(CORNER[0] + 3749, CORNER[1], inset_mm=1)
    assert not sheet.shows(CORNER[0], CORNER[1] + 3251)


# What every printed sheet carries ---------------------------------------------------------------


@pytest.mark.parametrize("water", [WATER, SOUTHERN], ids=lambda w: w.name)
@pytest.mark.parametrize("width", [112, 150, 206, 262])
def test_nothing_in_the_margin_runs_over_anything_else(water, width):
    west, south, east, north = water.bounds
    middle = (west + east) / 2 + 130, (south + north) / 2 - 170
    sheet = land_map(water, middle, size_mm=(width, 60))
    renderer = FigureCanvasAgg(sheet._figure).get_renderer()
    dots, f, boxes = sheet._figure.dpi / 25.4, sheet.frame, []
    for t in texts(sheet):
        if not f.holds(*t.get_position()):
            e = t.get_window_extent(renderer)
            boxes.append((t.get_text(), np.array([e.x0, e.y0, e.x1, e.y1]) / dots))
    assert len(boxes) > 25
    for (a, p), (b, q) in itertools.combinations(boxes, 2):
        room = np.minimum(p[2:], q[2:]) - np.maximum(p[:2], q[:2])
        assert room.min() < 0.4, (a, b)


def test_figures_of_the_second_grid_keep_clear_of_the_kilometres():
    for place in windows(25_000, 12, seed=3):
        sheet = land_map(WATER, place)
        f = sheet.frame
        for _, end in group(sheet.svg(), "second-grid-leaders"):
            side = not f.left < end[0] < f.right  # left or right of the map
            metres, w = sheet.grid_at(*end)[1 if side else 0], sheet.window
            low, high = (w.south, w.north) if side else (w.west, w.east)
            for km in range(int(low // 1000) + 1, int(high // 1000) + 1):
                assert abs(metres - 1000 * km) / 25 > (2.85 if side else 6.2)


@pytest.mark.parametrize("size", [(112, 60), (150, 130), (240, 170)])
@pytest.mark.parametrize("scale", [25_000, 50_000])
def test_every_sheet_says_what_it_is(size, scale):
    sheet = land_map(WATER, (96_500, 1_002_000), scale=scale, size_mm=size)
    written = " | ".join(t.get_text() for t in texts(sheet))
    for words in (
        "TRAINING – INVENTED PLACE – NOT FOR NAVIGATION",
        WATER.settings.title,
        f"1:{scale // 1000} 000",
        "km",
        "nautical miles",
        "this bar is 100 mm long",
        "grid",
        "magnetic",
        "true",
        "Magnetic north, November 2026:",
    ):
        assert words in written
    assert "not for navigation" in sheet.alt
    renderer = FigureCanvasAgg(sheet._figure).get_renderer()
    dots = sheet._figure.dpi / 25.4
    for t in texts(sheet):
        box = t.get_window_extent(renderer)
        assert box.x0 >= 0
        assert box.y0 >= 0
        assert box.x1 <= sheet.width_mm * dots
        assert box.y1 <= sheet.height_mm * dots


def test_north_figures_agree_with_pyproj_and_the_magnetic_model():
    # 58°48' N 7°15' W in late 2026, computed with other programs: D 2.4° W, γ 4.5° W, GMA 2.1° E.
    centre = Transformer.from_crs(4326, 27700, always_xy=True).transform(-7.25, 58.8)
    sheet = land_map(WATER, centre)
    to_grid, to_magnetic, gma = margin.norths(WATER, sheet.window)
    assert to_grid == pytest.approx(-4.5, abs=0.05)
    assert to_grid == pytest.approx(
        Proj("EPSG:27700").get_factors(-7.25, 58.8).meridian_convergence, abs=0.005
    )
    assert to_magnetic == pytest.approx(-2.4, abs=0.06)
    assert gma == pytest.approx(2.1, abs=0.06)
    written = " ".join(t.get_text() for t in texts(sheet))
    assert "4.5° W of true" in written
    assert "2.1° E of grid" in written


def test_norths_and_letters_of_a_southern_water():
    place = (400_400, 5_600_400)
    sheet = land_map(SOUTHERN, place)
    lat, lon = SOUTHERN.lat_lon(place)
    to_grid, to_magnetic, gma = margin.norths(SOUTHERN, sheet.window)
    expected = Proj("EPSG:32702").get_factors(lon, lat).meridian_convergence
    assert to_grid == pytest.approx(expected, abs=0.01)
    assert gma == pytest.approx(to_magnetic - to_grid, abs=0.01)
    assert to_magnetic > 15
    arrows = {name: group(sheet.svg(), f"north-{name}")[0] for name in ("grid", "true", "magnetic")}
    turn = {n: np.arctan2(a[1, 0] - a[0, 0], a[0, 1] - a[1, 1]) for n, a in arrows.items()}
    assert turn["true"] < turn["grid"] == 0 < turn["magnetic"]
    written = {t.get_text() for t in texts(sheet)}
    assert {"LB", "MB", "LA", "MA"} <= written
    assert any("39°44′S" in text for text, _ in sheet.names)
    assert any("write 02H before" in text for text in written)


def test_numbers_and_letters_stand_on_every_edge(sheet):
    f = sheet.frame
    at = {(round(t.get_position()[0], 1), round(t.get_position()[1], 1)): t for t in texts(sheet)}
    for k in range(-3, 4):
        along = [(x, y) for (x, y), t in at.items() if t.get_text() == f"{k % 100:02d}"]
        x, y = round(f.left + 75 + 20 * k, 1), round(f.top + 65 - 20 * k, 1)
        assert sum(px == x and not f.top < py < f.bottom for px, py in along) == 2
        assert sum(py == y and not f.left < px < f.right for px, py in along) == 2
    letters = {s: [p for p, t in at.items() if t.get_text() == s] for s in ("HV", "HW", "NA", "NB")}
    for name, places in letters.items():
        assert len(places) >= 2
        for x, y in places:
            e, n = sheet.grid_at(
                min(max(x, f.left + 1), f.right - 1), min(max(y, f.top + 1), f.bottom - 1)
            )
            assert WATER.settings.letters.of(e, n) == name


def test_land_sea_and_shore_part_in_grey_print():
    def grey(colour):
        if isinstance(colour, str):
            colour = [int(colour[k : k + 2], 16) for k in (1, 3, 5)]
        return np.dot(colour, [0.2126, 0.7152, 0.0722]) / 255

    assert grey(style.LOW_LAND) - grey(style.DEEP) > 0.08
    for water in (WATER, SOUTHERN):
        window = land_map(water, bounds=water.bounds, scale=50_000).window
        land = relief(survey(water, window)) @ [0.2126, 0.7152, 0.0722] / 255
        assert land.min() > 0.745  # a pencil line shows on the darkest slope
        assert land.max() < 0.975  # and the paper of a road on the brightest
        assert np.ptp(land) > 0.15  # and hills show
        assert land.min() - grey(style.PENCIL) > 0.5
    assert grey(style.FORESHORE) - grey(style.FORESHORE_INK) > 0.3
    for ink in (style.GRID, style.COAST, style.INK, style.WATER_INK):
        assert grey(style.DEEP) - grey(ink) > 0.4


# Names ------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("water", "scale", "count"),
    [(WATER, 25_000, 24), (WATER, 50_000, 10), (SOUTHERN, 25_000, 12), (SOUTHERN, 50_000, 3)],
)
def test_names_never_overlap_or_run_off_the_map(water, scale, count):
    set_names, nameless = 0, []
    for centre in windows(scale, count, seed=7, water=water):
        sheet = land_map(water, centre, scale=scale)
        set_names += len(sheet.names)
        for text, box in sheet.names:
            assert box.within(sheet.frame), text
        overlaps = [
            (a, b) for (a, p), (b, q) in itertools.combinations(sheet.names, 2) if p.overlaps(q)
        ]
        assert overlaps == []
        texts = [text for text, _ in sheet.names]
        well_in = [m for m in water.marks() if sheet.shows(*m.place, inset_mm=16)]
        nameless += [m.name for m in well_in if not any(m.name in text for text in texts)]
    assert set_names > 12 * count
    assert len(nameless) <= (0 if scale == 25_000 else 2), nameless


def test_the_ink_of_names_lies_in_the_boxes_that_were_kept_for_them():
    sheet = land_map(WATER, (95_500, 1_004_500), scale=25_000)
    names = [t for t in texts(sheet) if t.get_zorder() == 8]
    assert len(names) > 20
    for t in names:
        ink = TextPath((0, 0), t.get_text(), prop=t.get_fontproperties()).vertices * MM
        c, s = np.cos(np.radians(t.get_rotation())), np.sin(np.radians(t.get_rotation()))
        x = t.get_position()[0] + ink[:, 0] * c - ink[:, 1] * s
        y = t.get_position()[1] - ink[:, 0] * s - ink[:, 1] * c
        assert any(
            box.left - 0.3 < x.min()
            and x.max() < box.right + 0.3
            and box.top - 0.3 < y.min()
            and y.max() < box.bottom + 0.3
            for _, box in sheet.names
        ), t.get_text()


def test_a_name_is_written_as_it_stands(tmp_path):
    folder = tmp_path / "own"
    shutil.copytree(waters.reader._SHIPPED / "kessoray", folder)
    path = folder / "features.geojson"
    collection = json.loads(path.read_text("utf-8"))
    name = r"Rock $\frac{1}{0}$ <b>&"
    for feature in collection["features"]:
        if feature["properties"]["id"] == "gimlet-skerry":
            feature["properties"]["name"] = name
    path.write_text(json.dumps(collection))
    own = waters.load(folder)
    sheet = land_map(own, own.feature("gimlet-skerry").place)
    assert name in [text for text, _ in sheet.names]
    assert "<b>" not in sheet.svg()
    assert not any(t.get_parse_math() for t in texts(sheet))


# A learner's own extract -------------------------------------------------------------------------


@pytest.mark.parametrize("water", [WATER, SOUTHERN], ids=lambda w: w.name)
@pytest.mark.parametrize("kind", ["land map", "sea chart"])
def test_every_own_extract_is_worth_working_on_and_they_spread_over_the_water(water, kind):
    scales, size = water.settings.scales, (150.0, 130.0)
    scale = (scales.land_map if kind == "land map" else scales.sea_chart)[0]
    centres = [own.own_centre(water, seed, kind, scale, size) for seed in range(200)]
    for e, n in centres:
        away = [
            (abs(m.easting - e), abs(m.northing - n))
            for m in water.marks()
        ]  # fmt: skip
        half = [(side / 2 - own.INSET) * scale / 1000 for side in size]
        assert sum(x < half[0] and y < half[1] for x, y in away) >= own.WORTH[kind].marks
    assert len(set(centres)) > 150
    places = np.array(centres)
    west, south, east, north = water.bounds
    assert (np.ptp(places, axis=0) > 0.35 * np.array([east - west, north - south])).all()
    step = np.hypot(*np.diff(places, axis=0).T)  # from one seed to the next
    assert np.median(step) > 0.15 * (east - west)


def test_an_own_extract_is_the_same_for_the_same_seed_and_another_for_another():
    one, again, other = (own.own_extract(WATER, seed, size_mm=(120, 60)) for seed in (5, 5, 6))
    assert one.window == again.window != other.window
    assert one.scale == 25_000
    chart = own.own_extract(SOUTHERN, 11, sheet="sea chart")
    assert chart.scale == SOUTHERN.settings.scales.sea_chart[0]
    assert sum(chart.shows(*m.place, own.INSET) for m in SOUTHERN.marks()) >= 5
    with pytest.raises(ValueError, match="land map or sea chart"):
        own.own_extract(WATER, 1, sheet="globe")
    with pytest.raises(waters.OutsideWaters, match="holds enough to work on"):
        own.own_extract(SOUTHERN, 1, size_mm=(2000, 130))


# The same sheet again, and windows that cannot be drawn -----------------------------------------


def test_the_same_sheet_has_the_same_bytes_each_time():
    code = (
        "import hashlib, navlib.waters as w; from navlib.sheets import land_map;"
        f"s = land_map(w.load(), {HARBOUR}, size_mm=(120, 60));"
        "print(hashlib.sha256(s.svg().encode() + s.png(60) + s.pdf()).hexdigest())"
    )
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    s = land_map(WATER, HARBOUR, size_mm=(120, 60))
    here = hashlib.sha256(s.svg().encode() + s.png(60) + s.pdf()).hexdigest()
    assert run.stdout.strip() == here


@settings(max_examples=5)
@given(st.integers(87_000, 106_000), st.integers(994_000, 1_010_000))
def test_any_window_in_the_water_can_be_drawn(e, n):
    assert land_map(WATER, (e, n), size_mm=(120, 75)).svg().startswith("<?xml")


def test_bounds_and_centre_give_the_same_window():
    one = land_map(WATER, CORNER, size_mm=(120, 60))
    bounds = (98_500, 999_250, 101_500, 1_000_750)
    assert land_map(WATER, bounds=bounds).window == one.window


def test_windows_that_cannot_be_drawn_are_refused_in_words():
    with pytest.raises(waters.OutsideWaters, match="runs off Kessoray and Pelloray"):
        land_map(WATER, (82_100, 1_000_000))
    with pytest.raises(ValueError, match="at least 112 mm wide"):
        land_map(WATER, CORNER, size_mm=(80, 80))
    with pytest.raises(ValueError, match="either the centre"):
        land_map(WATER)
    with pytest.raises(ValueError, match="above zero"):
        land_map(WATER, CORNER, scale=0)
