"""Writes the training waters' data: `python -m navlib.waters.make [folder]`."""

import json
import sys
from pathlib import Path
from typing import Any

import numpy as np
from PIL import Image

from navlib.waters.make.frame import FOLDER, PLAN, STEP, ZERO, Array
from navlib.waters.make.marks import area_features, line_features, point_features
from navlib.waters.make.terrain import make_heights


def make() -> tuple[Array, dict[str, Any]]:
    """Return the height field (metres above chart datum, south row first) and the features."""
    rng = np.random.default_rng(PLAN["seed"])
    height, _, lochs = make_heights(rng)
    height = np.round(height / STEP) * STEP
    lines = line_features(height, rng)
    features = [
        *point_features(height, lochs),
        *lines,
        *area_features(height, lochs, lines, rng),
    ]
    collection = {
        "type": "FeatureCollection",
        "coordinates": "National Grid (EPSG:27700), metres, easting then northing",
        "note": "An invented place, for training. Not for navigation.",
        "features": features,
    }
    return height, collection


def picture(height: Array) -> Image.Image:
    """Return heights as a 16-bit grey picture, north row first."""
    return Image.fromarray((np.round(height / STEP) + ZERO).astype(np.uint16)[::-1])


def text(collection: dict[str, Any]) -> str:
    """Return GeoJSON with one feature a line, so that a change shows as a changed line."""
    head = {k: v for k, v in collection.items() if k != "features"}
    lines = ",\n".join(
        json.dumps(f, ensure_ascii=False, separators=(",", ":")) for f in collection["features"]
    )
    opening = json.dumps(head, ensure_ascii=False, indent=1)[:-2]
    return f'{opening},\n "features": [\n{lines}\n]}}\n'


def main(folder: Path) -> None:
    """Write `heights.png` and `features.geojson` into `folder`."""
    height, collection = make()
    picture(height).save(folder / "heights.png", compress_level=9)
    (folder / "features.geojson").write_text(text(collection), encoding="utf-8")


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else FOLDER)
