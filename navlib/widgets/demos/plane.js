// @ts-check
// A place on a plane: a handle that goes both ways, and a grid with its lines, letters and figures.

/** @typedef {[number, number]} Pair  east or right, then north or up */

const LETTERED = 100_000; // metres along the side of a square with letters

/**
 * A handle that goes both ways, by pointer or arrow keys.
 * @param {any} handle @param {any} drawing
 * @param {{at: (place: Pair) => Pair, from: (spot: Pair) => Pair, now: () => Pair,
 *   step: () => number, fine: () => number}} plane  at gives the spot in the drawing of a place,
 *   from the place of a spot; an arrow key moves by step, with Shift by fine
 * @param {(place: Pair, done: boolean) => void} told
 */
function roams(handle, drawing, { at, from, now, step, fine }, told) {
  /** @type {Pair} */
  let held = [0, 0]; // the spot of the handle when it was taken
  draggable(
    handle,
    drawing,
    (x, y, startX, startY) => told(from([held[0] + x - startX, held[1] + y - startY]), false),
    () => told(now(), true),
    () => (held = at(now())),
  );
  arrows(handle, (x, y, less) => {
    const [east, north] = now();
    const by = less ? fine() : step();
    told([east + x * by, north + y * by], true);
  });
}

/**
 * A place to move; its middle at 0, 0.
 * @param {string} name @param {number} most  the greatest value that is told of it
 * @param {...Node} inside
 */
function movable(name, most, ...inside) {
  const handle = slider(name, 0, most, draw("circle", { class: "nav-reach", r: 34 }), ...inside);
  set(handle, { class: "nav-turns nav-roams", "aria-roledescription": say("movable place") });
  return handle;
}

const dot = () => draw("circle", { class: "nav-mark", r: 10 });

/** The letter of a place that is at 0, 0. @param {string} letter */
const lettered = (letter) => label(letter, 0, -18, { class: "nav-strong nav-on-paper" });

/** Put a place's letter above it, or below where there is no room. @param {any} words @param {number} y */
const above = (words, y) => set(words, { y: y < 44 ? 36 : -18 });

/**
 * A part of the grid, drawn straight.
 * @param {{left: number, top: number, px: number, west: number, south: number, wide: number,
 *   high: number}} part  px a metre; wide and high are metres
 */
function gridPart({ left, top, px, west, south, wide, high }) {
  const bottom = top + high * px;
  return {
    ...{ left, top, west, south, px, bottom, right: left + wide * px },
    east: west + wide,
    north: south + high,
    /** @param {Pair} place @returns {Pair} */
    at: ([east, north]) => [left + (east - west) * px, bottom - (north - south) * px],
    /** @param {Pair} spot @returns {Pair} */
    from: ([x, y]) => [west + (x - left) / px, south + (bottom - y) / px],
  };
}
/** @typedef {ReturnType<typeof gridPart>} GridPart */

/** @typedef {[number, number, string][]} Letters  south-west corner and letters of each square */

/** @param {Letters} letters @param {Pair} place @returns {string} */
const lettersOf = (letters, [east, north]) =>
  letters.find(
    ([west, south]) =>
      west <= east && east < west + LETTERED && south <= north && north < south + LETTERED,
  )?.[2] ?? "";

/** @param {number} metres @param {number} figures of the whole reference @returns {string} its half */
const half = (metres, figures) =>
  String(Math.floor((metres % LETTERED) / 10 ** (5 - figures / 2))).padStart(figures / 2, "0");

/**
 * The reference of the square that a place lies in: cut off, never rounded.
 * @param {Letters} letters @param {Pair} place @param {number} figures @returns {string}
 */
const reference = (letters, place, figures) =>
  [lettersOf(letters, place), ...place.map((metres) => half(metres, figures))].join(" ");

/**
 * Lines of the grid, thick where the letters change, with figures at every `every` lines.
 * @param {GridPart} part @param {number} size metres between lines @param {number} figures
 * @param {number} every @param {Pair} [read]  the lines that are read: their figures are bold
 */
function gridLines(part, size, figures, every, read) {
  const parts = [];
  for (const [axis, low, high] of [
    [0, part.west, part.east],
    [1, part.south, part.north],
  ]) {
    for (let metres = Math.ceil(low / size) * size; metres <= high; metres += size) {
      const [x, y] = part.at(axis ? [part.west, metres] : [metres, part.south]);
      const lettered = metres % LETTERED === 0 ? " nav-grid-letters" : "";
      const d = axis ? `M${part.left} ${y}H${part.right}` : `M${x} ${part.top}V${part.bottom}`;
      parts.push(draw("path", { class: `nav-grid${lettered}`, d }));
      if (read && metres === high) continue; // its figures would stand out of the drawing
      const isRead = read?.[axis] === metres;
      const near = read && Math.abs(metres - read[axis]) < 1.5 * size && every > 1;
      if (!isRead && (near || (metres / size) % every)) continue;
      const settings = axis
        ? { x: part.left - 10, y: y + 8, "text-anchor": "end" }
        : { x, y: part.bottom + 32, "text-anchor": "middle" };
      const weight = `nav-on-paper ${isRead || !read ? "nav-strong" : "nav-quiet"}`;
      parts.push(draw("text", { ...settings, class: weight }, half(metres, figures)));
    }
  }
  return parts;
}

/**
 * The letters of each square, where enough of it is to be seen: in its outer corner.
 * @param {GridPart} part @param {Letters} letters
 */
function lettersDrawn(part, letters) {
  return letters.flatMap(([west, south, name]) => {
    const [low, high] = [Math.max(west, part.west), Math.min(west + LETTERED, part.east)];
    const [down, up] = [Math.max(south, part.south), Math.min(south + LETTERED, part.north)];
    if ((high - low) * part.px < 64 || (up - down) * part.px < 64) return [];
    const [x, y] = part.at([west < part.west ? low : high, south < part.south ? down : up]);
    return [
      label(name, x + (west < part.west ? 38 : -38), y + (south < part.south ? -16 : 44), {
        class: "nav-lettered nav-on-paper",
      }),
    ];
  });
}
