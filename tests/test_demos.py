"""All demonstrations: what they promise to a notebook, and that they keep to the house's look."""

import re
from pathlib import Path

import pytest
from traitlets import TraitError

from navlib.widgets import demos

WIDGETS = Path(demos.__file__).parent.parent
FRONT = sorted(Path(demos.__file__).parent.glob("*.[jc]s*"))
EVERY = [getattr(demos, name) for name in demos.__all__ if name.islower()]


@pytest.mark.parametrize("demo", EVERY)
def test_a_demonstration_is_written_the_same_each_time(demo):
    shown = demo()
    data, _ = shown._repr_mimebundle_()
    assert data["text/plain"] == repr(demo()) == shown.words
    assert shown.words.startswith("A figure to move: ")


@pytest.mark.parametrize(
    ("demo", "traits"),
    [
        (demos.rose_ages, {"printed": -40}),
        (demos.rose_ages, {"slip": "guessed"}),
        (demos.wrong_way, {"deviation": 40}),
        (demos.grid_lean, {"apart": 9}),
        (demos.to_blame, {"cause": "the moon"}),
        (demos.off_the_line, {"run": 0}),
        (demos.units_beside, {"miles": 0}),
        (demos.paper_to_ground, {"scale": 60_000}),
        (demos.two_minutes, {"latitude": 90}),
        (demos.latitude_border, {"level": 49}),
        (demos.coast_in_steps, {"step": 25}),
        (demos.one_leg, {"speed": 0}),
        (demos.one_leg, {"find": "course"}),
        (demos.two_speeds, {"home": 0.5}),
        (demos.clock_sum, {"clock": 1440}),
        (demos.stream_turns, {"stream": -3}),
        (demos.tide_by_rule, {"day": "storm"}),
        (demos.tide_by_rule, {"clock": 1440}),
        (demos.tide_and_chart, {"draught": -1}),
        (demos.secondary_tide, {"water": "slack"}),
        (demos.slack_to_slack, {"day": 15}),
        (demos.tidal_diamond, {"letter": "Z"}),
    ],
)
def test_a_demonstration_refuses_what_it_cannot_draw(demo, traits):
    with pytest.raises(TraitError):
        demo(**traits)


@pytest.mark.parametrize("file", FRONT, ids=lambda file: file.name)
def test_the_front_end_needs_no_network_and_is_short(file):
    text = file.read_text(encoding="utf-8").replace("http://www.w3.org/2000/svg", "")
    assert not re.search(r"https?:|^import |import\(|fetch\(|XMLHttp|@import|url\(", text, re.M)
    assert text.count("\n") < 300
    assert "innerHTML" not in text
    assert file.suffix == ".css" or text.startswith("// @ts-check\n")


@pytest.mark.parametrize(
    "file", [one for one in FRONT if one.suffix == ".css"], ids=lambda f: f.name
)
def test_no_colour_is_named_outside_the_palette(file):
    assert not re.search(r"#[0-9a-f]{3,8}\b|rgb|hsl", file.read_text(encoding="utf-8"))


def test_no_demonstration_takes_on_what_is_meant_for_the_chart_table():
    """Both lie on one page: `pointer-events: none` for a scale's figures would hold a handle."""
    classes = re.compile(r"\bnav-[\w-]+")

    def named(*globs):
        texts = [file.read_text(encoding="utf-8") for one in globs for file in WIDGETS.glob(one)]
        return set(classes.findall("".join(texts)))

    assert named("table/*.css") & named("demos/*.js") <= named("kit.css")
