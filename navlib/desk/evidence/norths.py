"""Which north a protractor stands on, and how well an eye sees that."""

from collections.abc import Mapping
from dataclasses import dataclass

from navlib.angles import signed
from navlib.language import to_say


@dataclass(frozen=True)
class Eye:
    """How well an eye sees on a protractor.

    `twist` and `astray` are degrees off north, and beside the line, from which it sees a fault: more
    than the instrument's own. `read` is how near a bearing must be to what the ring shows to be read
    off it, `north` how near its N to another north to stand on that. `ring_mm` is the ring's radius
    on paper; a soft one has a thread for an arm.
    """

    twist: float
    astray: float
    read: float
    north: float
    ring_mm: float
    thread: bool = False


STIFF = Eye(1.5, 2.0, 1.0, 1.0, 35.0)
SOFT = Eye(5.0, 5.0, 3.0, 2.5, 27.0, thread=True)
"""A disc of film on deck has a tick each 5°, which is read to half of one."""

NAMES = {
    "T": to_say("true north"),
    "G": to_say("the grid lines"),
    "M": to_say("magnetic north"),
}
"""What a protractor stands on, by the letter of its north."""


@dataclass(frozen=True)
class Norths:
    """Which way the norths lie on a sheet, degrees clockwise from its up, by letter: T, G, M."""

    by_letter: Mapping[str, float]

    def other(self, turn: float, wanted: str, eye: Eye) -> str:
        """Return which north a protractor stands on instead of the one wanted; empty for none."""
        near = {
            letter: abs(signed(turn - way))
            for letter, way in self.by_letter.items()
            if abs(signed(way - self.by_letter[wanted])) > eye.twist
        }
        best = min(near, key=lambda letter: near[letter], default="")
        return best if best and near[best] <= eye.north else ""
