"""Open sea round the area that is taught on, so that the frame of a chart has water behind it."""

from dataclasses import replace

import numpy as np

from navlib.waters.make.frame import Array, Frame
from navlib.waters.make.noise import box_mean, fractal_noise, smooth
from navlib.waters.make.plan import Plan


def with_apron(plan: Plan, frame: Frame, height: Array, nodes: int) -> Array:
    """Return the field with `nodes` more of open sea on every side; what there was stays as it is.

    The bed runs on from the edge with the slope that it has there, passes into one as deep as the
    edge is by and large within a kilometre, and draws near `plan.deep` farther out. Its numbers are
    drawn apart from all others.
    """
    if nodes == 0:
        return height
    rng = np.random.default_rng([plan.seed, nodes])
    wide = replace(frame, columns=frame.columns + 2 * nodes, rows=frame.rows + 2 * nodes)
    edge = np.pad(height, nodes, mode="edge")
    fall = edge - np.pad(height, nodes, mode="reflect")
    run_on = edge + fall / (1.0 + np.abs(fall) / 12.0)  # no rock at the edge makes a pit beyond it
    swell = 11.0 * fractal_noise(wide, rng, 4200.0, 3) + 6.0 * fractal_noise(wide, rng, 1100.0, 4)
    span = nodes * frame.spacing
    beyond_x = np.maximum(np.maximum(span - wide.x, wide.x - span - frame.size[0]), 0.0)
    beyond_y = np.maximum(np.maximum(span - wide.y, wide.y - span - frame.size[1]), 0.0)
    beyond = np.sqrt(beyond_x * beyond_x + beyond_y * beyond_y)
    out = 0.6 * smooth(beyond / span)
    broad = (1.0 - out) * box_mean(box_mean(edge, 30), 30) - out * (plan.deep + 2.0) - swell
    open_sea = smooth(beyond / min(1000.0, span))
    result = (1.0 - open_sea) * run_on + open_sea * broad
    result[nodes:-nodes, nodes:-nodes] = height
    return result
