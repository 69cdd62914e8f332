import hashlib
import io
import itertools
import re
import subprocess
import sys
from datetime import date
from decimal import Decimal

import numpy as np
import pytest
from drawing import group
from hypothesis import given, settings
from hypothesis import strategies as st
from matplotlib.backends.backend_agg import FigureCanvasAgg
from PIL import Image
from pyproj import Geod, Proj, Transformer

import navlib.waters as waters
from navlib import magnetism
from navlib.geodesy import rhumb
from navlib.sheets import Cross, PencilLine, sea_chart, style
from navlib.sheets.chart import border, soundings
from navlib.sheets.chart.frame import chart_window
from navlib.sheets.chart.soundings import shown

KESSORAY, ORRIMER = (waters.load(name) for name in ("kessoray", "orrimer"))
BOTH = pytest.mark.parametrize("water", [KESSORAY, ORRIMER], ids=["kessoray", "orrimer"])
CENTRE = {"kessoray": (95_500, 1_001_000), "orrimer": (401_500, 5_601_500)}
WINDOW = chart_window(KESSORAY, None, None, None, None)


def legs(water):
    """Pairs of marks some way apart."""
    marks = [m for m in water.marks() if m.kind in ("light", "beacon", "buoy")]
    pairs = itertools.combinations(marks, 2)
    far = [(a, b) for a, b in pairs if np.hypot(*np.subtract(a.place, b.place)) > 5000]
    return far[:6]


LEGS = {w.name: legs(w) for w in (KESSORAY, ORRIMER)}


@pytest.fixture(scope="module")
def whole():
    return {
        w.name: sea_chart(w, marks=[PencilLine(a.place, b.place) for a, b in LEGS[w.name]])
        for w in (KESSORAY, ORRIMER)
    }


@pytest.fixture(scope="module")
def drawings(whole):
    return {name: sheet.svg() for name, sheet in whole.items()}


def mercator(sheet):
    """From longitude and latitude to millimetres on the sheet, by pyproj's own words."""
    w = sheet.window
    chart = Transformer.from_crs(
        "EPSG:4326", f"+proj=merc +lat_ts={w.true_at} +datum=WGS84", always_xy=True
    )
    lon, lat = w.lon, w.lat
    x0, y0 = chart.transform(lon, lat)
    mid_x, mid_y = sheet.frame.middle

    def place(lon, lat):
        x, y = chart.transform(lon, lat)
        return mid_x + (x - x0) * 1000 / w.scale, mid_y - (y - y0) * 1000 / w.scale

    return place


def windows(water, scale, count, seed):
    """Centres of random extracts of 120 x 100 mm that lie on the water."""
    rng = np.random.default_rng(seed)
    half_w, half_h = 60 * scale / 1000 + 700, 50 * scale / 1000 + 700
    west, south, east, north = water.height_field.bounds
    for u, v in rng.random((count, 2)):
        yield (
            west + half_w + u * (east - west - 2 * half_w),
            south + half_h + v * (north - south - 2 * half_h),
        )


def printed_depth(text):
    """The depth in metres that a sounding's figures say, negative for a drying height."""
    decimetres = "".join(str("₀₁₂₃₄₅₆₇₈₉".index(c)) for c in text if c in "₀₁₂₃₄₅₆₇₈₉")
    metres = "".join(c for c in text if c.isascii() and c.isdigit())
    depth = Decimal(f"{metres}.{decimetres or 0}")
    return float(-depth if "\u0332" in text else depth)


def sheet_soundings(sheet):
    found = []
    for text, box in sheet.names:
        if re.fullmatch(r"(?:\d\u0332?)+[₀-₉]?", text):
            x, y = box.middle
            sounding = soundings.Sounding(printed_depth(text), x, y)
            if np.hypot(sounding.box.left - box.left, sounding.box.top - box.top) < 1e-6:
                found.append(soundings.Sounding(sounding.depth, *box.middle))
    return found


# Positions, held against pyproj's Mercator ------------------------------------------------------


@BOTH
def test_graduations_stand_where_mercator_puts_them(water, whole, drawings):
    sheet, place = whole[water.name], mercator(whole[water.name])
    w, f = sheet.window, sheet.frame
    step = border.division(w.scale).tick
    lats, lons = w.lat_lon_at(np.array([f.left, f.right]), np.array([f.bottom, f.top]))
    expected_y = [place(w.lon, t / 600)[1] for t in border.steps(*lats, step)]
    expected_x = [place(t / 600, w.lat)[0] for t in border.steps(*lons, step)]
    drawn_y = sorted({round(p[0, 1], 2) for p in group(drawings[water.name], "graduation-lat")})
    drawn_x = sorted({round(p[0, 0], 2) for p in group(drawings[water.name], "graduation-lon")})
    assert drawn_y == pytest.approx(sorted(expected_y), abs=0.1)
    assert drawn_x == pytest.approx(sorted(expected_x), abs=0.1)
    assert len(drawn_y) > 40


@BOTH
def test_parallels_and_meridians_stand_at_labelled_minutes(water, whole, drawings):
    sheet, place = whole[water.name], mercator(whole[water.name])
    w = sheet.window
    lines = group(drawings[water.name], "graticule")
    written = {t.get_text(): t.get_position() for t in texts(sheet)}
    for line in lines:
        level = abs(line[0, 1] - line[1, 1]) < 1e-6
        lat, lon = w.lat_lon_at(*line[0])
        angle = float(lat if level else lon)
        minutes = round(abs(angle) * 60)
        assert abs(angle) * 60 == pytest.approx(minutes, abs=0.01)
        assert minutes % 5 == 0
        letter = ("NS" if level else "EW")[angle < 0]
        assert f"{minutes // 60}°{minutes % 60:02d}′{letter}" in written
        whole_minute = np.copysign(minutes / 60, angle)
        exact = place(w.lon, whole_minute)[1] if level else place(whole_minute, w.lat)[0]
        assert line[0, 1 if level else 0] == pytest.approx(exact, abs=0.1)
    assert len(lines) >= 3


@BOTH
@pytest.mark.parametrize("scale", [75_000, 25_000])
def test_marks_lie_where_their_latitude_and_longitude_say(water, scale):
    sheet = sea_chart(water, CENTRE[water.name], scale=scale, size_mm=(130, 100))
    shown_marks = [m for m in water.marks() if sheet.shows(*m.place, inset_mm=3)]
    assert len(shown_marks) >= 3
    crossed = sea_chart(
        water,
        CENTRE[water.name],
        scale=scale,
        size_mm=(130, 100),
        marks=[Cross(m.place) for m in shown_marks],
    )
    place, crosses = mercator(crossed), group(crossed.svg(), "pencil")
    to_degrees = Transformer.from_pipeline(water.settings.grid.pipeline)
    for mark, first, second in zip(shown_marks, crosses[::2], crosses[1::2], strict=True):
        lon, lat, *_ = to_degrees.transform(*mark.place, 0.0, direction="INVERSE")
        x, y = place(lon, lat)
        for arm in (first, second):
            assert arm.mean(axis=0) == pytest.approx((x, y), abs=0.1)
        assert crossed.place(*mark.place) == pytest.approx((x, y), abs=0.01)


@BOTH
def test_a_straight_pencil_line_has_the_rhumb_lines_bearing_and_length(water, whole, drawings):
    sheet, lines = whole[water.name], group(drawings[water.name], "pencil")
    for (a, b), line in zip(LEGS[water.name], lines, strict=True):
        across, down = line[-1] - line[0]
        bearing = np.degrees(np.arctan2(across, -down)) % 360
        distance, expected = rhumb(*water.lat_lon(a.place), *water.lat_lon(b.place))
        assert (bearing - expected + 180) % 360 - 180 == pytest.approx(0, abs=0.1)
        minutes = np.hypot(across, down) / latitude_minute_mm(sheet, (line[0, 1] + line[-1, 1]) / 2)
        assert minutes == pytest.approx(distance / 1852, rel=0.004)  # a minute is 1849 to 1857 m


def latitude_minute_mm(sheet, y):
    lat, _ = sheet.window.lat_lon_at(sheet.frame.middle[0], y)
    above, below = (sheet.window.at_lat_lon(lat + d / 120, sheet.window.lon)[1] for d in (1, -1))
    return float(below - above)


@BOTH
def test_the_scale_is_true_at_the_stated_latitude(water, whole):
    sheet = whole[water.name]
    lat = sheet.window.true_at
    assert lat * 12 == pytest.approx(round(lat * 12))
    radius = Geod(ellps="WGS84").inv(sheet.window.lon, lat, sheet.window.lon + 0.01, lat)[2]
    a, b = (sheet.window.at_lat_lon(lat, sheet.window.lon + d)[0] for d in (0.0, 0.01))
    assert float(b - a) * sheet.scale / 1000 == pytest.approx(radius, rel=1e-5)


@settings(max_examples=30)
@given(st.floats(84_000, 109_000), st.floats(992_000, 1_012_000))
def test_there_and_back(e, n):
    assert WINDOW.grid_at(*WINDOW.place(e, n)) == pytest.approx((e, n), abs=0.01)


# Depths -----------------------------------------------------------------------------------------


def test_depths_are_printed_to_the_safe_side():
    # The steps are from memory of the international chart specifications (S-4), B-412.
    given = np.array(
        [0.0, 0.39, 4.3, 4.39, 20.99, 21.3, 21.7, 30.99, 31.0, 48.9, -0.01, -1.6, -1.61]
    )
    printed = [0, 0.3, 4.3, 4.3, 20.9, 21, 21.5, 30.5, 31, 48, -0.1, -1.6, -1.7]
    assert shown(given) == pytest.approx(printed)


@given(st.floats(-5, 90))
def test_no_depth_is_printed_deeper_than_it_is(depth):
    printed = float(shown(np.array([depth]))[0])
    assert printed <= depth + 1e-6
    assert depth - printed < (1.0 if depth >= 31 else 0.5 if depth >= 21 else 0.1) + 1e-6


@BOTH
def test_soundings_are_the_fields_at_their_places(water, whole):
    sheet = whole[water.name]
    found = sheet_soundings(sheet)
    assert len(found) > 150
    for s in found:
        depth = -water.height_field.at(*sheet.grid_at(s.x, s.y))
        assert s.depth == pytest.approx(float(shown(np.array([depth]))[0]), abs=1e-9) or (
            abs(round(depth * 10) - depth * 10) < 1e-3
        )
        assert -depth < water.settings.levels.mhws


@BOTH
def test_no_shoal_in_open_water_goes_without_a_sounding(water, whole):
    """A cell that is the least depth within 4 mm, by 3 m, has a sounding of its depth near."""
    sheet = whole[water.name]
    f, signs = sheet.frame, [b for _, b in sheet.names]
    x, y = np.meshgrid(
        np.arange(f.left + 6, f.right - 6, 1.0), np.arange(f.top + 6, f.bottom - 6, 1.0)
    )
    depth = -water.height_field.at(*sheet.window.grid_at(x, y))
    reach = 4
    views = np.lib.stride_tricks.sliding_window_view(np.pad(depth, reach, mode="edge"), (9, 9))
    least, edge = views.min(axis=(2, 3)), np.median(views, axis=(2, 3))
    shoal = (depth == least) & (depth > 6) & (edge - depth > 3)
    found = sheet_soundings(sheet)
    missed = []
    for j, i in np.argwhere(shoal):
        near = [s.depth for s in found if np.hypot(s.x - x[j, i], s.y - y[j, i]) < 4.5]
        hidden = any(b.holds(x[j, i], y[j, i], -2.5) for b in signs)
        if not hidden and not any(d <= depth[j, i] + 2.0 for d in near):
            missed.append((x[j, i], y[j, i], depth[j, i]))
    assert len(missed) <= 0.2 * max(5, shoal.sum()), missed


@BOTH
def test_land_drying_ground_and_shallows_have_their_tints(water):
    sheet = sea_chart(water, CENTRE[water.name], scale=25_000, size_mm=(150, 130))
    with Image.open(io.BytesIO(sheet.png(150))) as picture:
        dots = np.asarray(picture.convert("RGB"))
    rng, f = np.random.default_rng(3), sheet.frame
    x, y = (
        f.left + 2 + rng.random(9000) * (f.width - 4),
        f.top + 2 + rng.random(9000) * (f.height - 4),
    )
    height = water.height_field.at(*sheet.window.grid_at(x, y))
    colour = dots[(y / 25.4 * 150).astype(int), (x / 25.4 * 150).astype(int)]
    coast = water.settings.levels.mhws
    for low, high, tint in (
        (coast + 6, 500, style.CHART_LAND),
        (0.4, coast - 0.4, style.CHART_DRYING),
        (-4.5, -0.5, style.CHART_SHALLOW),
        (-9.5, -5.5, style.CHART_MIDDLE),
        (-500, -11, style.CHART_DEEP),
    ):
        inside = (height > low) & (height < high)
        exact = [int(tint[k : k + 2], 16) for k in (1, 3, 5)]
        right = np.abs(colour[inside].astype(int) - exact).max(axis=1) <= 2
        assert inside.sum() > 10
        assert right.mean() > 0.7, tint


def test_tints_part_in_grey_print():
    def grey(colour):
        return (
            np.dot([int(colour[k : k + 2], 16) for k in (1, 3, 5)], [0.2126, 0.7152, 0.0722]) / 255
        )

    deep, middle, land, shallow, drying = (
        grey(c)
        for c in (
            style.CHART_DEEP,
            style.CHART_MIDDLE,
            style.CHART_LAND,
            style.CHART_SHALLOW,
            style.CHART_DRYING,
        )
    )
    assert min(-np.diff([deep, middle, land, shallow, drying])) > 0.05
    for ink in (style.CHART_INK, style.MAGENTA, style.CHART_DEPTH_LINE, style.CHART_LAND_INK):
        assert drying - grey(ink) > 0.25


# Roses ------------------------------------------------------------------------------------------


@BOTH
def test_roses_are_turned_by_the_variation_that_they_print(water, whole, drawings):
    sheet, svg = whole[water.name], drawings[water.name]
    training = water.settings.training_roses[0]
    for name, printed in (("rose", None), ("training-rose-1", training.printed)):
        true, magnetic = (group(svg, f"{name}-{part}") for part in ("true", "magnetic"))
        middle = np.vstack(group(svg, f"{name}-middle")).mean(axis=0)
        if printed is None:
            lat, lon = water.lat_lon(sheet.grid_at(*middle))
            printed = magnetism.variation(lat, lon, date(water.settings.sheet_date.year, 1, 1))
        for ring, turn in ((true, 0.0), (magnetic, printed)):
            assert len(ring) == 360 + 2
            shaft = ring[-1][-1] - ring[-1][0]
            assert bearing_of(shaft) == pytest.approx(turn, abs=0.05)
            out = np.array([tick[0] - middle for tick in ring[:360]])
            radius = np.hypot(*out.T)
            assert np.ptp(radius) < 0.02
            turns = np.degrees(np.arctan2(out[:, 0], -out[:, 1])) - turn - np.arange(360)
            assert np.abs((turns + 180) % 360 - 180).max() < 0.05


def bearing_of(way):
    return float(np.degrees(np.arctan2(way[0], -way[1])))


@BOTH
def test_roses_say_whose_they_are(water, whole):
    words = [text for text, _ in whole[water.name].names]
    assert "TRAINING ROSE" in words
    assert water.settings.training_roses[0].write() in words
    year = water.settings.sheet_date.year
    real = [magnetism.parse_rose(w) for w in words if re.search(rf"[EW] {year} \(", w)]
    assert len(real) == 1


# What every printed sheet carries ---------------------------------------------------------------


def texts(sheet):
    return list(sheet._figure.axes[0].texts)


@pytest.mark.parametrize(
    ("scale", "size"),
    [(None, None), (75_000, (112, 60)), (25_000, (112, 60)), (25_000, (150, 130))],
)
def test_every_sheet_says_what_it_is(whole, scale, size):
    sheet = whole["kessoray"]
    if size is not None:
        sheet = sea_chart(KESSORAY, CENTRE["kessoray"], scale=scale, size_mm=size)
    written = " | ".join([t.get_text() for t in texts(sheet)] + [t for t, _ in sheet.names])
    for words in (
        "TRAINING – INVENTED PLACE – NOT FOR NAVIGATION",
        KESSORAY.settings.title,
        f"1:{(scale or 75_000) // 1000} 000 at latitude 58°50'N",
        "this bar is 100 mm long",
        "DEPTHS IN METRES",
        "mean high water springs",
        "region A",
        "WGS 84",
        "2026 (14'E)",
    ):
        assert words in written
    assert "not for navigation" in sheet.alt
    check = np.vstack(group(sheet.svg(), "check-bar"))
    assert np.ptp(check[:, 0]) == pytest.approx(100, abs=0.02)
    renderer = FigureCanvasAgg(sheet._figure).get_renderer()
    dots = sheet._figure.dpi / 25.4
    for t in texts(sheet):
        box = t.get_window_extent(renderer)
        assert box.x0 >= 0, t.get_text()
        assert box.y0 >= 0, t.get_text()
        assert box.x1 <= sheet.width_mm * dots, t.get_text()
        assert box.y1 <= sheet.height_mm * dots, t.get_text()


@BOTH
def test_a_whole_sheet_fits_a3(water, whole):
    sheet = whole[water.name]
    assert sheet.width_mm <= 420
    assert sheet.height_mm <= 297
    for f in water.features:
        if f.sighted:
            assert sheet.shows(*f.place), f.id


# Words ------------------------------------------------------------------------------------------


@BOTH
@pytest.mark.parametrize(("scale", "count"), [(75_000, 4), (25_000, 8)])
def test_words_and_figures_never_overlap(water, scale, count):
    for centre in windows(water, scale, count, seed=11):
        overlaps(sea_chart(water, centre, scale=scale, size_mm=(120, 100)))


@BOTH
def test_words_and_figures_never_overlap_on_the_whole_sheet(water, whole):
    overlaps(whole[water.name])
    assert len(whole[water.name].names) > 300


def overlaps(sheet):
    """Fail where two texts on a sheet share more than 0.2 square millimetres."""
    boxes = np.array([(b.left, b.top, b.right, b.bottom) for _, b in sheet.names]).reshape(-1, 4)
    low = np.maximum(boxes[:, None, :2], boxes[None, :, :2])
    high = np.minimum(boxes[:, None, 2:], boxes[None, :, 2:])
    shared = np.triu(np.clip(high - low, 0, None).prod(axis=2), k=1)
    clashes = [(sheet.names[i][0], sheet.names[j][0]) for i, j in np.argwhere(shared > 0.2)]
    assert clashes == []


# The same sheet again, and charts that cannot be drawn ------------------------------------------


def test_the_same_sheet_has_the_same_bytes_each_time():
    code = (
        "import hashlib, navlib.waters as w; from navlib.sheets import sea_chart;"
        f"s = sea_chart(w.load(), {CENTRE['kessoray']}, size_mm=(120, 60));"
        "print(hashlib.sha256(s.svg().encode() + s.png(60) + s.pdf()).hexdigest())"
    )
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    s = sea_chart(KESSORAY, CENTRE["kessoray"], size_mm=(120, 60))
    here = hashlib.sha256(s.svg().encode() + s.png(60) + s.pdf()).hexdigest()
    assert run.stdout.strip() == here


def test_bounds_give_a_frame_that_holds_them():
    bounds = (93_000, 998_000, 101_000, 1_004_000)
    sheet = sea_chart(KESSORAY, bounds=bounds)
    for e in bounds[::2]:
        for n in bounds[1::2]:
            assert sheet.shows(e, n, inset_mm=-0.01)


def test_charts_that_cannot_be_drawn_are_refused_in_words():
    with pytest.raises(waters.OutsideWaters, match="runs off Kessoray and Pelloray"):
        sea_chart(KESSORAY, (83_000, 1_000_000))
    with pytest.raises(ValueError, match="at least 112 mm wide"):
        sea_chart(KESSORAY, CENTRE["kessoray"], size_mm=(80, 80))
    with pytest.raises(ValueError, match="not both"):
        sea_chart(KESSORAY, CENTRE["kessoray"], bounds=KESSORAY.bounds)
    with pytest.raises(ValueError, match="above zero"):
        sea_chart(KESSORAY, CENTRE["kessoray"], scale=0)


def test_the_window_agrees_with_projs_mercator():
    window = sea_chart(KESSORAY, CENTRE["kessoray"], size_mm=(120, 60)).window
    chart = Proj(proj="merc", lat_ts=window.true_at, ellps="WGS84")
    x, y = window.at_lat_lon(58.8, -7.2)
    ax, ay = chart(-7.2, 58.8)
    bx, by = chart(window.lon, window.lat)
    mid_x, mid_y = window.frame.middle
    assert (float(x), float(y)) == pytest.approx(
        (mid_x + (ax - bx) / 75, mid_y - (ay - by) / 75), abs=1e-6
    )
