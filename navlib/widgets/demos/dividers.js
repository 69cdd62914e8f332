// @ts-check
// What the demonstrations of distance share: dividers, and handles that go up and down.

/** @typedef {[number, number]} Point */

/**
 * The shape of dividers that stand with their points at two places, the hinge to the left of the
 * way from one to the other.
 * @param {Point} one @param {Point} other @param {number} [leg]  the length of a leg, at least
 */
function dividersPath([x1, y1], [x2, y2], leg = 76) {
  const span = Math.hypot(x2 - x1, y2 - y1) || 1;
  const long = Math.max(leg, span * 0.54);
  const high = Math.sqrt(long ** 2 - (span / 2) ** 2);
  const [ux, uy] = [(x2 - x1) / span, (y2 - y1) / span];
  /** @type {Point} */
  const hinge = [(x1 + x2) / 2 + uy * high, (y1 + y2) / 2 - ux * high];
  /** @param {Point} tip */
  const blade = ([x, y]) => {
    const [px, py] = [(-(y - hinge[1]) / long) * 5, ((x - hinge[0]) / long) * 5];
    return `M${x} ${y}L${hinge[0] + px} ${hinge[1] + py}L${hinge[0] - px} ${hinge[1] - py}Z`;
  };
  return { d: blade([x1, y1]) + blade([x2, y2]), hinge };
}

/** A pair of dividers; `stand(one, other)` puts its points down. @param {number} [leg] */
function dividersDrawn(leg) {
  const blades = draw("path", { class: "nav-divider" });
  const hinge = draw("circle", { class: "nav-hinge", r: 9 });
  /** @param {Point} one @param {Point} other @returns {Point} the hinge */
  function stand(one, other) {
    const shape = dividersPath(one, other, leg);
    set(blades, { d: shape.d });
    set(hinge, { cx: shape.hinge[0], cy: shape.hinge[1] });
    return shape.hinge;
  }
  return { node: draw("g", {}, blades, hinge), stand };
}

/**
 * A handle that goes up and down a drawing, by pointer or arrow keys.
 * @param {any} handle @param {any} drawing
 * @param {{from: (y: number) => number, place: () => number, now: () => number, step: number,
 *   fine: number}} scale  from gives the value at a height, place where the handle is; an arrow key
 *   moves by step, with Shift by fine
 * @param {(value: number, done: boolean) => void} told
 */
function rises(handle, drawing, { from, place, now, step, fine }, told) {
  let grip = 0; // from where it is held to where it points
  draggable(
    handle,
    drawing,
    (_x, y, _startX, startY) => told(toNearest(from(grip + y - startY), fine), false),
    () => told(now(), true),
    () => (grip = place()),
  );
  arrows(handle, (x, y, less) => {
    const by = less ? fine : step;
    told(toNearest(now() + (x + y) * by, by), true);
  });
}

/** @param {Point[]} points @returns {string} a path through them */
const through = (points) =>
  "M" + points.map(([x, y]) => `${x.toFixed(1)} ${y.toFixed(1)}`).join("L");

/** @param {number} value @returns {string} with two decimals */
const hundredths = (value) => toNearest(value, 0.01).toFixed(2);

/** @param {number} metres @returns {string} in kilometres with one decimal */
const kilometres = (metres) => `${tenths(metres / 1000)} km`;
