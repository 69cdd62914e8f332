"""What stands where on a drawing: the points of its SVG paths, in millimetres on the sheet."""

import re

import numpy as np

MM = 25.4 / 72


def group(svg, id):
    """The points of each path in a group of the drawing, in millimetres on the sheet."""
    inner = re.search(rf'<g id="{id}">(.*?)\n   </g>', svg, re.S)[1]
    return [points(d) for d in re.findall(r' d="([^"]*)"', inner)]


def points(path):
    place, found = np.zeros(2), []
    for command, numbers in re.findall(r"([MlLz])([^A-Za-z]*)", path):
        for pair in np.array(re.findall(r"-?[\d.]+", numbers), float).reshape(-1, 2):
            place = place + pair if command == "l" else pair
            found.append(place * MM)
    return np.array(found)
