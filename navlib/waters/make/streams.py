"""The tidal streams of a piece of water, made from its height field.

One half-daily wave (M2) is worked out in complex amplitudes. The streams obey the linear shallow
water equations without the turning of the earth, du/dt = -grad p - r u / h, and continuity,
dz/dt + div(h u) = 0, with a surface that rises and falls as one over so small an area (D. Pugh and
P. Woodworth, Sea-Level Science, 2014, chapter 6: hydrodynamic equations, and bottom friction made
linear by 8/3π; from memory). So the flow is a potential flow weighted by depth and slowed by
friction: it quickens in sounds and round heads, turns earlier inshore, and fills the bays. Drawn
out on a staggered grid (A. Arakawa's C) it conserves water exactly. Eddies are beyond it.
"""

from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from navlib.streams import vector
from navlib.tides import CONSTITUENTS
from navlib.tides.signal import mean_turning
from navlib.units import NM
from navlib.waters.features import read_features
from navlib.waters.heights import HeightField, read_heights
from navlib.waters.make.basin import Array, Basin, basin
from navlib.waters.settings import read_settings
from navlib.waters.stream_field import as_picture
from navlib.waters.tides_file import Offshore, Sound, TidesFile, read_tides

Complex = NDArray[np.complex128]

OMEGA = float(np.radians(CONSTITUENTS["M2"].speed)) / 3600
"""Speed of M2 in radians per second."""
GRAVITY = 9.81
_LINEAR = 8 / (3 * np.pi)
_ROUNDS = 3  # of finding the friction that belongs to the streams that it leaves
_EXACT = 1e-6  # what is left of the imbalance when the flow counts as found


def edge_stream(offshore: Offshore, springs: float) -> Complex:
    """Return M2's (east, north) complex amplitudes offshore, m/s; mean springs are `springs` times.

    A place's stream at a time is the real part of amplitude times a number that turns; it is real
    and positive at M2's high water at the standard port.
    """
    to_m2 = NM / 3600 / springs
    phase = np.exp(-1j * OMEGA * 3600 * offshore.hours)
    along = vector(offshore.flood, offshore.rate_kn) * to_m2
    across = vector(offshore.flood + 90, offshore.across_kn) * to_m2
    return np.asarray((along - 1j * across) * phase)


def slope(sound: Sound, x: Array, y: Array, amplitude: float) -> Complex:
    """Return the push (2, ...) east and north of a sound's slope at places, complex, m/s.

    It is what the slope would make of the stream without friction and if all its water could get
    away; `amplitude` is M2's at the line's first place, metres.
    """
    places = np.array(sound.line)
    sides = np.diff(places, axis=0)
    lengths = np.hypot(*sides.T)
    fall = amplitude * (1 - sound.range_ratio * np.exp(-1j * OMEGA * sound.minutes * 60))
    strength = GRAVITY * fall / lengths.sum() / (1j * OMEGA)
    pushed = np.zeros((2, *np.broadcast_shapes(x.shape, y.shape)), complex)
    nearest = np.full(pushed.shape[1:], sound.reach)
    for (x0, y0), side, length in zip(places, sides, lengths, strict=False):
        along = ((x - x0) * side[0] + (y - y0) * side[1]) / length**2
        share = np.clip(along, 0, 1)
        away = np.hypot(x - x0 - share * side[0], y - y0 - share * side[1])
        near = (away < nearest) & (along >= 0) & (along <= 1)
        nearest = np.where(near, away, nearest)
        whole = strength * (1 - (away[near] / sound.reach) ** 2)
        pushed[:, near] = (side / length)[:, None] * whole
    return pushed


def make_streams(
    heights: HeightField,
    offshore: Offshore,
    *,
    level: float,
    amplitude: float,
    springs: float,
    spacing: float,
    sounds: tuple[Sound, ...] = (),
) -> Complex:
    """Return the complex M2 amplitudes (m/s) of the streams: shape (2, rows + 1, columns + 1).

    The first, east, holds at the middle of each cell's west side, the second, north, at the middle
    of its south side; what lies past the last cell is 0. The phase counts from M2's high water at
    the standard port, whose M2 has `amplitude` metres about `level`; mean springs run `springs`
    times as fast.
    """
    water = basin(heights, level, spacing)
    outside, ring = _open_edge(water, edge_stream(offshore, springs))
    push = _pushes(heights, water, sounds, amplitude)
    depth, wet = (water.depth_x, water.depth_y), (water.wet_x, water.wet_y)
    filling = 1j * OMEGA * amplitude * water.wet * water.spacing**2
    phi = None
    speed: tuple[Array, ...] = (np.full(depth[0].shape, 0.5), np.full(depth[1].shape, 0.5))
    edge_slow = slowing(
        offshore.drag, np.hypot(*abs(edge_stream(offshore, springs))) * springs, ring
    )
    for _ in range(_ROUNDS):
        slow = [
            slowing(offshore.drag, s, d / np.maximum(w, 1e-9))
            for s, d, w in zip(speed, depth, wet, strict=True)
        ]
        kx, ky = (d / s for d, s in zip(depth, slow, strict=True))
        pushed = np.diff(kx * push[0], axis=1) + np.diff(ky * push[1], axis=0)
        phi = _balance(kx, ky, filling + water.spacing * pushed, outside * edge_slow, phi)
        whole = outside * edge_slow
        whole[1:-1, 1:-1] = phi
        slopes = np.diff(whole[1:-1], axis=1), np.diff(whole[:, 1:-1], axis=0)
        u, v = (
            np.where(d > 0, (p - along / water.spacing) / s, 0)
            for d, p, along, s in zip(depth, push, slopes, slow, strict=True)
        )
        speed = tuple(
            0.3 * old + 0.7 * springs * new for old, new in zip(speed, _speeds(u, v), strict=True)
        )
    result = np.zeros((2, *(n + 1 for n in water.wet.shape)), complex)
    result[0, :-1], result[1, :, :-1] = u, v
    return result


def slowing(drag: float, speed: Array | float, depth: Array) -> Complex:
    """Return by what complex number friction divides the stream that a slope drives.

    `speed` (m/s) is its greatest at springs. 1 without friction; large where the water is shallow,
    with the stream up to a quarter turn ahead.
    """
    return np.asarray(1 - 1j * _LINEAR * drag * speed / (OMEGA * np.maximum(depth, 0.1)))


def _open_edge(water: Basin, stream: Complex) -> tuple[Complex, Array]:
    """Return the potential of an even stream, with a ring round the cells, and the mean depth."""
    rows, columns = water.wet.shape
    x = (np.arange(-1, columns + 1) - (columns - 1) / 2) * water.spacing
    y = (np.arange(-1, rows + 1) - (rows - 1) / 2) * water.spacing
    sides = water.depth_y[0], water.depth_y[-1], water.depth_x[:, 0], water.depth_x[:, -1]
    return -(stream[0] * x + stream[1] * y[:, None]), np.concatenate(sides).mean()


def _pushes(
    heights: HeightField, water: Basin, sounds: tuple[Sound, ...], amplitude: float
) -> tuple[Complex, Complex]:
    """Return what the slopes of the sounds add at west sides (eastward) and at south sides."""
    x = heights.west + np.arange(water.depth_x.shape[1], dtype=float) * water.spacing
    y = heights.south + np.arange(water.depth_y.shape[0], dtype=float)[:, None] * water.spacing
    half = water.spacing / 2
    east, north = (np.zeros(d.shape, complex) for d in (water.depth_x, water.depth_y))
    for sound in sounds:
        east += slope(sound, x, y[:-1] + half, amplitude)[0]
        north += slope(sound, x[:-1] + half, y, amplitude)[1]
    return east, north


def _speeds(u: Complex, v: Complex) -> tuple[Array, Array]:
    """Return the speed at each west side and each south side, the other part from around it."""
    across_u = np.pad((abs(u[:, 1:]) + abs(u[:, :-1])) / 2, ((1, 1), (0, 0)), "edge")
    across_v = np.pad((abs(v[1:]) + abs(v[:-1])) / 2, ((0, 0), (1, 1)), "edge")
    return (
        np.hypot(abs(u), (across_v[:, 1:] + across_v[:, :-1]) / 2),
        np.hypot(abs(v), (across_u[1:] + across_u[:-1]) / 2),
    )


def _balance(
    kx: Complex, ky: Complex, filling: Complex, outside: Complex, guess: Complex | None
) -> Complex:
    """Return the potential in each cell that lets in through its sides what fills it.

    `outside` is the potential one cell beyond the edge, kept there. Conjugate gradients for
    complex symmetric equations, scaled by the diagonal: H. A. van der Vorst and J. B. M. Melissen
    1990, IEEE Transactions on Magnetics 26(2), 706-708.
    """
    diagonal = kx[:, 1:] + kx[:, :-1] + ky[1:] + ky[:-1]
    sea = diagonal != 0
    scale = np.where(sea, 1 / np.where(sea, diagonal, 1), 0)

    def outflow(phi: Complex, around: Complex) -> Complex:
        whole = around.copy()
        whole[1:-1, 1:-1] = phi
        x, y = kx * np.diff(whole[1:-1], axis=1), ky * np.diff(whole[:, 1:-1], axis=0)
        return x[:, :-1] - x[:, 1:] + y[:-1] - y[1:]

    nothing = np.zeros_like(outside)
    phi = outside[1:-1, 1:-1].copy() if guess is None else guess.copy()
    left = np.where(sea, -filling - outflow(phi, outside), 0)
    start = np.where(sea, -filling - outflow(np.zeros_like(phi), outside), 0)
    enough = _EXACT * np.linalg.norm(start)
    z = scale * left
    way, rho = z, np.sum(left * z)
    while np.linalg.norm(left) > enough:
        pushed = outflow(way, nothing)
        alpha = rho / np.sum(way * pushed)
        phi = phi + alpha * way
        left = left - alpha * pushed
        z = scale * left
        rho, before = np.sum(left * z), rho
        way = z + rho / before * way
    return np.where(sea, phi, 0)


def made_from(given: TidesFile, heights: HeightField) -> Complex:
    """Return the amplitudes of the streams that a `tides.json` asks for over a height field."""
    flow, (amplitude, _) = given.streams, given.standard.constituents["M2"]
    _, springs = abs(mean_turning(given.standard, np.array([6.0, 0.0])))
    return make_streams(
        heights,
        flow.offshore,
        level=given.standard.mean_level,
        amplitude=amplitude,
        springs=float(springs),
        spacing=flow.spacing,
        sounds=flow.sounds,
    )


def picture_of(folder: Path) -> NDArray[np.uint16]:
    """Return the picture of the streams of a water, whose other files are in `folder`."""
    settings, kept = read_settings(folder / "settings.json")
    heights = read_heights(folder / str(kept.pop("file")), **kept)
    features = read_features(folder / "features.geojson", settings.area or heights.bounds)
    given = read_tides(folder / "tides.json", {f.id: f for f in features})
    return as_picture(made_from(given, heights), given.streams.step)
