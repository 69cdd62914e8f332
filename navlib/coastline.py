"""The length of a crooked line: with a cord, with dividers of a step, and why the answers differ.

Points are shape (n, 2), all in one unit (metres on the ground, or millimetres of paper), and every
length comes out in it. The length of a coast without a stated step is not an answer.
"""

import math
from itertools import pairwise
from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from navlib.angles import plain
from navlib.distance import leg_lengths, line_length
from navlib.units import Floats


class Walk(NamedTuple):
    """A line walked with dividers: whole steps, what is left over, and where the points stood."""

    step: float
    steps: int
    remainder: float
    points: NDArray[np.float64]

    @property
    def length(self) -> float:
        """Whole steps and the remainder together."""
        return self.steps * self.step + self.remainder


def cord_length(line: ArrayLike) -> float:
    """Return the length of a cord laid along every bend of `line`."""
    return line_length(line)


def walk(line: ArrayLike, step: float) -> Walk:
    """Walk dividers of `step` along `line` from its first point.

    Each step goes to where the circle of radius `step` about the last point first meets the line
    further on; the remainder is the straight distance from the last point to the end of the line.
    Raises ValueError for a step that is not above zero. `points` includes start and end.
    Source: B. B. Mandelbrot, How long is the coast of Britain?, Science 156 (1967), after
    L. F. Richardson.
    """
    if not step > 0:
        raise ValueError(f"a step of {step} leads nowhere: give a length above zero, such as 500")
    leg_lengths(line)  # the same complaint about points as elsewhere
    vertices = np.asarray(line, float)
    stood = [vertices[0]]
    for start, end in pairwise(vertices):
        # The stretch begins inside the circle, so it leaves it at most once.
        while np.hypot(*(end - stood[-1])) >= step * (1 - 1e-12):
            start = _leaves(start, end, stood[-1], step)
            stood.append(start)
    remainder = float(np.hypot(*(vertices[-1] - stood[-1])))
    return Walk(step, len(stood) - 1, remainder, np.array([*stood, vertices[-1]]))


def fractal_dimension(steps: ArrayLike, lengths: ArrayLike) -> float:
    """Return D of the best fit of L = c s^(1 - D): 1 for a smooth line, 1.1 to 1.3 for coasts.

    `steps` and `lengths` are shape (n,), at least two different steps. Least squares on logarithms.
    Source: Mandelbrot (1967).
    """
    logs = np.log(np.asarray(steps, float)), np.log(np.asarray(lengths, float))
    if np.ptp(logs[0]) == 0:
        raise ValueError("one step tells nothing about roughness: give lengths for two steps")
    return float(1 - np.polyfit(*logs, 1)[0])


def length_at_step(length: Floats, step: Floats, other_step: Floats, dimension: Floats) -> Floats:
    """Return the length to be expected with `other_step`, from the length found with `step`.

    Halving the step adds 7, 15 or 23 % for a `dimension` of 1.1, 1.2 or 1.3.
    """
    return plain(length * (np.asarray(other_step) / step) ** (1 - np.asarray(dimension)))


def _leaves(
    start: NDArray[np.float64], end: NDArray[np.float64], centre: NDArray[np.float64], radius: float
) -> NDArray[np.float64]:
    """Return where the straight from `start`, inside a circle, to `end`, outside, leaves it."""
    along, out = end - start, start - centre
    a, b, c = along @ along, out @ along, out @ out - radius**2
    part = (math.sqrt(b * b - a * c) - float(b)) / float(a)
    return start + along * min(part, 1.0)
