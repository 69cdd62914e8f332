"""The land map: grid, contours and relief, ways, signs, names, and its margin."""
