"""Colours of widgets and of the chart table against what they stand on.

Web Content Accessibility Guidelines (WCAG) 2.2, W3C 2023: relative luminance and contrast ratio as
defined in its glossary; level AA asks 4.5 of text (1.4.3) and 3 of what is not text (1.4.11).
"""

import re
from itertools import product
from pathlib import Path

import matplotlib.colors
import pytest

import navlib
from navlib.sheets import style

ROOT = Path(navlib.__file__).parent
PALETTE = ROOT / "lab/labextensions/navlib-lesson/static/palette.css"
TEXT, SHAPE = 4.5, 3.0

# WCAG's own understanding of 1.4.3: black on white is 21:1; #767676 is the lightest grey that passes.
PUBLISHED = [("#000000", "#ffffff", 21.0, 0.001), ("#767676", "#ffffff", 4.54, 0.005)]

WRITTEN = {  # what is written, by name in kit.css, and on what
    **{(ink, ground): TEXT for ink, ground in product(("ink", "quiet"), ("paper", "tint"))},
    **{(ink, "paper"): TEXT for ink in ("warm", "right", "wrong")},
    ("paper", "ink"): TEXT,  # a button pressed
    ("paper", "warm"): TEXT,  # the figure on a knob
}
ON_SHEETS = ("ink", "lead", "warm-drawn", "right-drawn")
"""What instruments, pencil and key draw on the bare sheet; what else is warm has an edge of paper or
ink.
"""
DRAWN_IN = ("table/instruments.css", "card.css")
"""Where the colours stand that are for the sheet alone."""
GROUNDS = {
    name: matplotlib.colors.to_hex(colour if isinstance(colour, str) else [c / 255 for c in colour])
    for name in (
        *("PAPER", "LOW_LAND", "HIGH_LAND", "DEEP", "SHALLOW", "FORESHORE", "WOOD", "FRESH"),
        *("CHART_LAND", "CHART_DRYING", "CHART_SHALLOW", "CHART_MIDDLE", "CHART_DEEP"),
    )
    for colour in [getattr(style, name)]
}


def luminance(colour: str) -> float:
    """Return the relative luminance of #rrggbb."""
    parts = (int(colour[k : k + 2], 16) / 255 for k in (1, 3, 5))
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """Return the contrast ratio of two colours, 1 to 21."""
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def colours(*, alone: bool) -> dict[str, str]:
    """Return the widgets' colours by name: the lesson's palette, or what stands alone without it."""
    palette = dict(re.findall(r"--nav-([\w-]+): (#\w{6})", PALETTE.read_text("utf-8")))
    kit = (ROOT / "widgets/kit.css").read_text("utf-8")
    found = re.findall(r"--(\w+): var\(--nav-([\w-]+), (#\w{6})\)", kit)
    drawn = "".join((ROOT / "widgets" / file).read_text("utf-8") for file in DRAWN_IN)
    own_there = dict(re.findall(r"--(lead|[\w-]+-drawn): (#\w{6})", drawn))
    return {name: own if alone else palette[shared] for name, shared, own in found} | own_there


@pytest.mark.parametrize(("one", "other", "ratio", "within"), PUBLISHED)
def test_contrast_is_that_of_the_guidelines(one, other, ratio, within):
    assert contrast(one, other) == pytest.approx(ratio, abs=within)


@pytest.mark.parametrize("alone", [False, True])
def test_what_is_written_can_be_read(alone):
    palette = colours(alone=alone)
    poor = {
        pair: round(ratio, 2)
        for pair, least in WRITTEN.items()
        if (ratio := contrast(*(palette[name] for name in pair))) < least
    }
    assert not poor


@pytest.mark.parametrize("alone", [False, True])
def test_instruments_and_pencil_are_seen_on_every_colour_of_a_sheet(alone):
    palette = colours(alone=alone)
    poor = {
        (name, ground): round(ratio, 2)
        for name, (ground, colour) in product(ON_SHEETS, GROUNDS.items())
        if (ratio := contrast(palette[name], colour)) < SHAPE
    }
    assert not poor
    assert contrast(palette["warm"], palette["paper"]) > SHAPE
