"""Writes the data of training waters from their plans: `python -m navlib.waters.make --help`."""

import argparse
import json
import shutil
from pathlib import Path
from typing import Any

import numpy as np
from PIL import Image

from navlib.waters.make.afloat import bottom, leading_lines, limits
from navlib.waters.make.apron import with_apron
from navlib.waters.make.areas import area_features
from navlib.waters.make.cover import walls, woods
from navlib.waters.make.frame import Array
from navlib.waters.make.marks import point_features
from navlib.waters.make.plan import DATA, Plan, names, read_frame, read_plan
from navlib.waters.make.streams import picture_of
from navlib.waters.make.terrain import make_heights
from navlib.waters.make.ways import lay_bys, line_features


def make(plan: Plan, settings_file: Path) -> tuple[Array, dict[str, Any]]:
    """Return a water's heights as numbers for its picture (north row first) and its features.

    Raises WatersError for settings that are missing or not as they should be.
    """
    frame, settings, kept = read_frame(settings_file)
    rng = np.random.default_rng(plan.seed)
    height, _, lochs = make_heights(plan, frame, rng)
    height = np.round(height / kept["step"]) * kept["step"]
    lines = line_features(plan, frame, height, rng)
    points = point_features(plan, frame, height, lochs)
    features = [*points, *lines, *area_features(plan, frame, height, lochs, lines, rng)]
    features += [*lay_bys(plan, lines), *leading_lines(plan, frame, points)]
    features += limits(plan, frame, height)
    features += woods(plan, frame, height, features)
    features += walls(plan, frame, height, features)
    features += bottom(plan, frame, height)
    collection = {
        "type": "FeatureCollection",
        "coordinates": f"{settings.grid.name}, metres, easting then northing",
        "note": "An invented place, for training. Not for navigation.",
        "features": features,
    }
    apron = round((frame.west - kept["west"]) / frame.spacing)
    numbers = np.round(with_apron(plan, frame, height, apron) / kept["step"]) + kept["zero"]
    return numbers[::-1], collection


def text(collection: dict[str, Any]) -> str:
    """Return GeoJSON with one feature a line, so that a change shows as a changed line."""
    head = {k: v for k, v in collection.items() if k != "features"}
    lines = ",\n".join(
        json.dumps(f, ensure_ascii=False, separators=(",", ":")) for f in collection["features"]
    )
    opening = json.dumps(head, ensure_ascii=False, indent=1)[:-2]
    return f'{opening},\n "features": [\n{lines}\n]}}\n'


def write(name: str, folder: Path) -> None:
    """Write a water's height picture, features and streams into `folder`, beside its settings."""
    settings = DATA / name / "settings.json"
    numbers, collection = make(read_plan(name), settings)
    folder.mkdir(parents=True, exist_ok=True)
    if folder != DATA / name:
        shutil.copy(settings, folder)
    picture = Image.fromarray(numbers.astype(np.uint16))
    picture.save(folder / "heights.png", compress_level=9)
    (folder / "features.geojson").write_text(text(collection), encoding="utf-8")
    tides = DATA / name / "tides.json"
    if tides.exists():
        if folder != DATA / name:
            shutil.copy(tides, folder)
        picture = Image.fromarray(picture_of(folder))
        picture.save(folder / "streams.png", compress_level=9)


def main() -> None:
    """Make the waters named on the command line."""
    parser = argparse.ArgumentParser(
        prog="python -m navlib.waters.make",
        description="Makes training waters from their plans and settings: the height picture, "
        "the features and, where there is a tides.json, the streams (a minute). The same plan "
        "gives the same files.",
    )
    parser.add_argument("names", nargs="*", metavar="NAME", help=f"of {', '.join(names())}; or all")
    parser.add_argument(
        "--out", type=Path, metavar="FOLDER", help="put a folder for each water here instead"
    )
    given = parser.parse_args()
    for name in given.names or names():
        folder = (given.out or DATA) / name
        write(name, folder)
        print(f"{name}: written to {folder}")


if __name__ == "__main__":
    main()
