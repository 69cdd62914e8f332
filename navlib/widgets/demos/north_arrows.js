// @ts-check
// North arrows as the demonstrations of norths draw them, and arcs between them.

/** Heads of our own: a full one, an open one, half of one; a full one in the warm colour.
 * @type {Record<string, string>} */
const HEADS = {
  T: "M-9 24L0 0L9 24Z",
  G: "M-9 22L0 0L9 22",
  M: "M0 0L11 26L0 20Z",
  C: "M-9 24L0 0L9 24Z",
};

/** @param {number} radius @param {number} from @param {number} to clockwise @returns {string} */
function arcPath(radius, from, to) {
  const sweep = wrap(to - from);
  const start = along(0, 0, from, radius);
  return `M${start}A${radius} ${radius} 0 ${sweep > 180 ? 1 : 0} 1 ${along(0, 0, from + sweep, radius)}`;
}

/** @param {number} radius @param {number} one @param {number} other  the smaller part of a disc */
function wedgePath(radius, one, other) {
  const [from, to] = signed(other - one) < 0 ? [other, one] : [one, other];
  return `${arcPath(radius, from, to)}L0 0Z`;
}

/** @param {string} letter @returns {any} it in a small round field, its middle at 0, 0 */
const badge = (letter) =>
  draw(
    "g",
    { class: "nav-badge" },
    draw("circle", { r: 17 }),
    draw("text", { dy: 8, "text-anchor": "middle" }, letter),
  );

/**
 * An arrow from 0, 0 to one of the norths, its letter at its end.
 * @param {string} north T, G, M or C
 */
function northArrow(north) {
  const shaft = draw("line", { class: `nav-shaft nav-shaft-${north}` });
  const head = draw("path", { class: `nav-arrowhead nav-arrowhead-${north}`, d: HEADS[north] });
  const letter = badge(north);
  /** @param {number} angle @param {number} length */
  function aim(angle, length) {
    const [x, y] = along(0, 0, angle, length - 18);
    set(shaft, { x2: x, y2: y });
    set(head, { transform: `translate(${x} ${y}) rotate(${angle})` });
    set(letter, { transform: `translate(${along(0, 0, angle, length + 2)})` });
  }
  return { node: draw("g", {}, shaft, head, letter), aim };
}

/** @param {string} north @returns {any} a short piece of its arrow, to stand before its value */
const arrowSample = (north) =>
  draw(
    "svg",
    { class: "nav-sample", viewBox: "0 0 60 30", "aria-hidden": "true" },
    draw("line", { class: `nav-shaft nav-shaft-${north}`, x1: 2, x2: 44, y1: 15, y2: 15 }),
    draw("path", {
      class: `nav-arrowhead nav-arrowhead-${north}`,
      d: HEADS[north],
      transform: "translate(58 15) rotate(90) scale(.8)",
    }),
  );
