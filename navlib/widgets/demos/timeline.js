// @ts-check
// Time and way drawn to scale: bars of minutes on an axis, a line with its miles.

/**
 * @param {number} left @param {number} right @param {number} most  what lies at the right end
 * @returns {(value: number) => number} the place of a value across the drawing
 */
const scale = (left, right, most) => (value) => left + ((right - left) * value) / most;

/**
 * A drawing 640 wide, on a sheet of its own.
 * @param {number} height @param {...Node} inside
 */
const drawingOf = (height, ...inside) =>
  draw(
    "svg",
    { class: "nav-broad", viewBox: `0 0 640 ${height}` },
    draw("rect", { class: "nav-sea", width: 640, height }),
    ...inside,
  );

/** @param {number} most minutes @returns {number} minutes between two written marks */
const markEvery = (most) => [10, 15, 30, 60, 120].find((step) => most / step <= 5.5) ?? 240;

/** @param {number} minutes @returns {string} as short as it can be written: 30, 1 h, 1 h 30 */
const shortly = (minutes) =>
  minutes % HOUR ? (minutes > HOUR ? duration(minutes) : `${minutes} min`) : `${minutes / HOUR} h`;

/** @param {string} words @param {number} x @param {number} y @param {Settings} [settings] */
const label = (words, x, y, settings = {}) =>
  draw("text", { x, y, "text-anchor": "middle", ...settings }, words);

/**
 * An axis of minutes.
 * @param {(minutes: number) => number} at @param {number} most @param {number} y
 */
function timeAxis(at, most, y) {
  const step = markEvery(most);
  const fine = step / (step % 20 === 0 ? 4 : step % 3 === 0 ? 3 : 2);
  const marks = [];
  for (let minutes = 0; minutes <= most + 0.01; minutes += fine) {
    const long = minutes % step === 0;
    marks.push(draw("path", { class: "nav-axis", d: `M${at(minutes)} ${y}v${long ? 14 : 8}` }));
    if (long) marks.push(label(minutes ? shortly(minutes) : "0", at(minutes), y + 38));
  }
  return draw("g", {}, draw("path", { class: "nav-axis", d: `M${at(0)} ${y}H${at(most)}` }), ...marks);
}

const LETTER = 13.5; // no letter of a label is wider, on the mean

/**
 * A bar, its length to scale, with words inside. Where they have no room the dashed kind has them
 * beside it, the others none.
 * @param {"first" | "second" | "not-so"} kind
 * @param {number} from @param {number} to @param {number} y @param {string} words
 */
function bar(kind, from, to, y, words) {
  const width = Math.max(to - from, 0);
  const shape = { class: `nav-bar nav-bar-${kind}`, x: from, y, width, height: 56 };
  const inside = width >= LETTER * words.length;
  const written = inside
    ? label(words, (from + to) / 2, y + 37)
    : label(kind === "not-so" ? words : "", to + 10, y + 37, { "text-anchor": "start" });
  return draw("g", {}, draw("rect", shape), written);
}

/**
 * A line of way with a mark at each mile.
 * @param {(miles: number) => number} at @param {number} most @param {number} y
 */
function mileLine(at, most, y) {
  const marks = [];
  for (let mile = 0; mile <= most + 0.01; mile++) {
    marks.push(
      draw("path", { class: "nav-axis", d: `M${at(mile)} ${y - 9}v18` }),
      label(mile === most ? `${mile} NM` : String(mile), at(mile), y - 20),
    );
  }
  return draw("g", {}, draw("path", { class: "nav-way", d: `M${at(0)} ${y}H${at(most)}` }), ...marks);
}

/** A boat seen from above, its bow to the right and its middle at 0, 0. */
const boatFromAbove = () =>
  draw("path", { class: "nav-hull", d: "M-38 0Q-20 -17 4 -14T40 0Q28 10 4 14T-38 0Z" });

/**
 * A handle to slide along a drawing.
 * @param {string} name @param {number} min @param {number} max @param {...Node} inside
 */
const slider = (name, min, max, ...inside) => pulled("nav-slides", name, min, max, ...inside);

/** A grip to pull at the end of a bar; its middle at 0, 0. */
const grip = () =>
  draw(
    "g",
    {},
    draw("circle", { class: "nav-reach", r: 34 }),
    draw("circle", { class: "nav-place", r: 17 }),
    draw("path", { class: "nav-bow", d: "M-5 -6L-10 0L-5 6M5 -6L10 0L5 6" }),
  );
