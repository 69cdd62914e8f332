"""The shaded relief under a land map: paler low, warmer high, lit from the north-west."""

import numpy as np
from matplotlib.axes import Axes
from matplotlib.patches import Patch

from navlib.sheets import style
from navlib.sheets.ground import Array, Ground


def draw_relief(axes: Axes, ground: Ground, clip: Patch) -> None:
    """Paint the land: paler low, warmer high, lit from the north-west; light enough to draw on."""
    spacing = ground.easting[1] - ground.easting[0]
    finer = max(1, round(spacing * 1000 / ground.window.scale * 3.2))
    land = np.maximum(ground.height, ground.coast)
    land = _softened(land)
    slope_n, slope_e = np.gradient(land * 1.7, spacing)
    norm = np.sqrt(1 + slope_e**2 + slope_n**2)
    light = np.zeros_like(land)
    for azimuth, share in ((315.0, 0.7), (270.0, 0.15), (0.0, 0.15)):
        east, north, up = np.sin(np.radians(azimuth)), np.cos(np.radians(azimuth)), 1.0
        light += share * (-slope_e * east - slope_n * north + up) / norm / np.sqrt(2.0)
    shade = np.clip(1 + 0.42 * (light - 1 / np.sqrt(2.0)), 0.70, 1.08)
    tint = np.clip((land - ground.coast) / 260.0, 0, 1)[..., None]
    colour = (1 - tint) * np.array(style.LOW_LAND) + tint * np.array(style.HIGH_LAND)
    picture = _finer(np.clip(colour * shade[..., None], 0, 255), finer)
    picture = (np.round(picture / 4) * 4).clip(0, 255).astype(np.uint8)  # packs smaller
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


def _softened(field: Array) -> Array:
    field = np.pad(field, 1, mode="edge")
    field = 0.25 * field[:-2] + 0.5 * field[1:-1] + 0.25 * field[2:]
    return 0.25 * field[:, :-2] + 0.5 * field[:, 1:-1] + 0.25 * field[:, 2:]


def _finer(picture: Array, times: int) -> Array:
    """Return the picture with `times` as many rows and columns between its first and last."""
    for axis in (0, 1):
        count = picture.shape[axis]
        at = np.linspace(0, count - 1, (count - 1) * times + 1)
        low = np.minimum(at.astype(int), count - 2)
        t = at - low
        t = t.reshape((-1, 1, 1) if axis == 0 else (1, -1, 1))
        picture = (
            np.take(picture, low, axis=axis) * (1 - t) + np.take(picture, low + 1, axis=axis) * t
        )
    return picture
