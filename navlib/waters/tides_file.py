"""Reads `tides.json`: the ports of a piece of water, their constants, and how its streams run."""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from navlib.clock import zone_info
from navlib.tides import Differences, Port, SecondaryPort
from navlib.waters.errors import WatersError
from navlib.waters.features import Feature, Place
from navlib.waters.needs import Needs


@dataclass(frozen=True)
class Diamond:
    """A tidal diamond: its letter, what it is called in words, and its place in grid metres."""

    letter: str
    name: str
    place: Place


@dataclass(frozen=True)
class Offshore:
    """The stream that comes in from the open sea, at mean springs.

    `flood` is where it sets, in degrees on the grid, `hours` after high water at the standard port
    (before: negative), at its greatest rate `rate_kn`; a quarter of a tide later it sets a quarter
    turn to the right at `across_kn` (to the left: negative). `drag` is the coefficient of quadratic
    bottom friction.
    """

    flood: float
    rate_kn: float
    hours: float
    across_kn: float
    drag: float


@dataclass(frozen=True)
class Sound:
    """A sound between seas whose tides differ by more than so small an area can show by itself.

    High water comes `minutes` later at the last place of `line` (grid metres) than at the first,
    and the range is `range_ratio` times as large; the slope that this makes is spread along the
    line, whole on it and none `reach` metres aside.
    """

    line: tuple[Place, ...]
    minutes: float
    range_ratio: float
    reach: float


@dataclass(frozen=True)
class StreamsFile:
    """What `tides.json` says of the streams.

    Amplitudes stand in the picture `file` in steps of `step` m/s at cells `spacing` metres wide;
    the quarter-daily overtide has `overtide` times the amplitude of M2 and turns `overtide_lag`
    degrees later than M2 turns twice. `offshore` and `sounds` are what the maker makes it from.
    """

    file: str
    step: float
    spacing: float
    overtide: float
    overtide_lag: float
    diamonds: tuple[Diamond, ...]
    offshore: Offshore
    sounds: tuple[Sound, ...]


@dataclass(frozen=True)
class TidesFile:
    """What `tides.json` says; `features` are the ids of the ports' places, the standard first."""

    standard: Port
    secondary: tuple[SecondaryPort, ...]
    features: tuple[str, ...]
    streams: StreamsFile


def read_tides(path: Path, features: Mapping[str, Feature]) -> TidesFile:
    """Return the tides in a JSON file, whose ports stand at `features`.

    Raises WatersError naming what is missing or of the wrong sort.
    """
    try:
        given = json.loads(path.read_text(encoding="utf-8"))
    except ValueError as fault:
        raise WatersError(f"{path.name} is not JSON: {fault}.") from None
    need = _TideNeeds(path.name, given)
    standard = need.standard("standard")
    rows = [f"secondary.{i}" for i in range(need.count("secondary"))]
    return TidesFile(
        standard,
        tuple(need.secondary(row, standard) for row in rows),
        tuple(need.feature(f"{port}.feature", features) for port in ("standard", *rows)),
        need.streams("streams"),
    )


class _TideNeeds(Needs):
    """Fetches ports, differences and diamonds."""

    def count(self, name: str) -> int:
        return len(self.of(name, list, "a list"))

    def numbers(self, name: str, count: int, example: str) -> tuple[float, ...]:
        value = self.of(name, list, f"a list such as {example}")
        if len(value) != count or not all(type(v) in (int, float) for v in value):
            raise WatersError(f"{self.file}: “{name}” should be a list such as {example}.")
        return tuple(float(v) for v in value)

    def feature(self, name: str, features: Mapping[str, Feature]) -> str:
        value = self.text(name)
        if value not in features:
            raise WatersError(
                f"{self.file}: “{name}” should be the id of a feature of this water, "
                f"but there is no “{value}”."
            )
        return value

    def zone(self, name: str) -> str:
        value = self.text(name)
        try:
            zone_info(value)
        except ValueError as fault:
            raise WatersError(f"{self.file}: “{name}”: {fault}.") from None
        return value

    def standard(self, name: str) -> Port:
        constants = {
            constituent: self.numbers(f"{name}.constituents.{constituent}", 2, "[1.45, 204]")
            for constituent in self.of(
                f"{name}.constituents", dict, 'constants such as {"M2": [1.45, 204]}'
            )
        }
        if not {"M2", "S2"} <= set(constants):
            raise WatersError(
                f"{self.file}: “{name}.constituents” should have M2 and S2, from which springs "
                "and neaps come."
            )
        level, called = self.number(f"{name}.mean_level"), self.text(f"{name}.name")
        zone, source = self.zone(f"{name}.zone"), "invented, for training"
        try:
            pairs = {key: (pair[0], pair[1]) for key, pair in constants.items()}
            return Port(level, pairs, called, source, zone)
        except ValueError as fault:
            raise WatersError(f"{self.file}: “{name}”: {fault}.") from None

    def secondary(self, name: str, standard: Port) -> SecondaryPort:
        return SecondaryPort(
            standard,
            self.differences(f"{name}.high"),
            self.differences(f"{name}.low"),
            self.text(f"{name}.name"),
            standard.zone,
            self.zone(f"{name}.zone"),
            "invented, for training",
        )

    def differences(self, name: str) -> Differences:
        hours, minutes, levels, metres = (
            self.numbers(f"{name}.{part}", 2, example)
            for part, example in (
                ("hours", "[0, 6]"),
                ("minutes", "[-50, -20]"),
                ("levels", "[4.8, 3.7]"),
                ("metres", "[-0.6, -0.3]"),
            )
        )
        try:
            return Differences(
                (hours[0], hours[1]),
                (minutes[0], minutes[1]),
                (levels[0], levels[1]),
                (metres[0], metres[1]),
            )
        except ValueError as fault:
            raise WatersError(f"{self.file}: “{name}”: {fault}.") from None

    def streams(self, name: str) -> StreamsFile:
        step, spacing = self.number(f"{name}.step"), self.number(f"{name}.spacing")
        if step <= 0 or spacing <= 0:
            raise WatersError(f"{self.file}: {name}.step and {name}.spacing should be above zero.")
        diamonds = tuple(
            self.diamond(f"{name}.diamonds.{i}") for i in range(self.count(f"{name}.diamonds"))
        )
        letters = [diamond.letter for diamond in diamonds]
        if len(set(letters)) < len(letters):
            raise WatersError(
                f"{self.file}: two diamonds have one letter among {', '.join(letters)}; "
                "give each its own."
            )
        return StreamsFile(
            self.text(f"{name}.file"),
            step,
            spacing,
            self.number(f"{name}.overtide.ratio"),
            self.number(f"{name}.overtide.lag"),
            diamonds,
            Offshore(
                **{
                    part: self.number(f"{name}.offshore.{part}")
                    for part in Offshore.__dataclass_fields__
                }
            ),
            tuple(self.sound(f"{name}.sounds.{i}") for i in range(self.count(f"{name}.sounds"))),
        )

    def sound(self, name: str) -> Sound:
        line = [self.place(f"{name}.line.{i}") for i in range(self.count(f"{name}.line"))]
        if len(line) < 2:
            raise WatersError(f"{self.file}: “{name}.line” should have two places or more.")
        parts = (self.number(f"{name}.{part}") for part in ("minutes", "range_ratio", "reach"))
        return Sound(tuple(line), *parts)

    def place(self, name: str) -> Place:
        east, north = self.numbers(name, 2, "[95500, 1004200]")
        return east, north

    def diamond(self, name: str) -> Diamond:
        return Diamond(
            self.text(f"{name}.letter"), self.text(f"{name}.name"), self.place(f"{name}.place")
        )
