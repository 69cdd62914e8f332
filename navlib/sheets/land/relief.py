"""The shaded relief under a land map: paler low, warmer high, lit from the north-west."""

import numpy as np
from matplotlib.axes import Axes
from matplotlib.patches import Patch
from numpy.typing import NDArray

from navlib.sheets import style
from navlib.sheets.ground import Array, Ground

_PIXELS_PER_MM = 2.3
_STEEPER = 1.7  # times that slopes are drawn steeper than they are
_TOP = 260.0  # metres above the coast from which the land is as warm as it gets
DARKEST, BRIGHTEST = 0.85, 1.04
"""How much the light may darken or brighten the land: a pencil line shows on the darkest."""
_STEP = 0.01  # of light; few shades pack small


def draw_relief(axes: Axes, ground: Ground, clip: Patch) -> None:
    """Paint the land: paler low, warmer high, lit from the north-west; light enough to draw on."""
    picture = relief(ground)
    x, y = ground.mesh
    image = axes.imshow(
        picture[::-1],
        extent=(x[0, 0], x[0, -1], y[0, 0], y[-1, 0]),
        origin="upper",
        interpolation="none",
        aspect="auto",
        zorder=0,
    )
    image.set_clip_path(clip)


def relief(ground: Ground) -> NDArray[np.uint8]:
    """Return the shaded land as rows (the southern first) of red, green and blue, 0 to 255.

    Between the nodes of the height field lie as many more as make half a millimetre or less. Light
    falls from three sides, most from the north-west, so that ridges across it show too.
    """
    spacing = ground.easting[1] - ground.easting[0]
    finer = max(1, round(spacing * 1000 / ground.window.scale * _PIXELS_PER_MM))
    land = _softened(np.maximum(ground.height, ground.coast))
    slope_n, slope_e = np.gradient(land * _STEEPER, spacing)
    up = 1 / np.sqrt(1 + slope_e**2 + slope_n**2)
    light = np.zeros_like(land)
    for azimuth, share in ((315.0, 0.7), (270.0, 0.15), (0.0, 0.15)):
        east, north = np.sin(np.radians(azimuth)), np.cos(np.radians(azimuth))
        light += share * (1 - slope_e * east - slope_n * north) * up / np.sqrt(2.0)
    more = light - 1 / np.sqrt(2.0)  # than level ground has
    room = np.where(more < 0, 1 - DARKEST, BRIGHTEST - 1)
    shade = _finer(1 + room * np.tanh(0.6 * more / room), finer)
    height = _finer(np.clip((land - ground.coast) / _TOP, 0, 1), finer)
    lights = np.rint((shade - DARKEST) / _STEP).astype(np.uint8)
    heights = np.rint(height * 12).astype(np.uint8)
    return _colours()[lights, heights]


def _colours() -> NDArray[np.uint8]:
    """Return the colour of each step of light (rows) and of height (columns)."""
    steps = round((BRIGHTEST - DARKEST) / _STEP) + 1
    shade = DARKEST + _STEP * np.arange(steps)[:, None, None]
    tint = np.arange(13)[None, :, None] / 12
    colour = (1 - tint) * np.array(style.LOW_LAND) + tint * np.array(style.HIGH_LAND)
    return np.clip(colour * shade, 0, 255).astype(np.uint8)


def _softened(field: Array) -> Array:
    field = np.pad(field, 1, mode="edge")
    field = 0.25 * field[:-2] + 0.5 * field[1:-1] + 0.25 * field[2:]
    return 0.25 * field[:, :-2] + 0.5 * field[:, 1:-1] + 0.25 * field[:, 2:]


def _finer(field: Array, times: int) -> NDArray[np.float32]:
    """Return the field with `times` as many rows and columns between its first and last."""
    result = field.astype(np.float32)
    for _ in range(2):
        rows, columns = result.shape
        more = np.empty(((rows - 1) * times + 1, columns), dtype=np.float32)
        for k in range(times):
            t = np.float32(k / times)
            more[k:-1:times] = result[:-1] * (1 - t) + result[1:] * t
        more[-1] = result[-1]
        result = more.T
    return result
