// @ts-check
// A small sheet with its title, its scale bar and its check bar, and a ruler to lay on it.

const MM = 3.2; // units of the drawing to a millimetre that a ruler shows
const SHEET = [168, 88]; // mm, as it was printed
const START = [14, 27]; // where the leg begins on the sheet, mm
const BAR = 65; // and how far down its scale bar lies
/** @type {Record<number, [number, number]>} miles right of the bar's zero, parts left of it */
const BARS = { 25000: [1, 10], 50000: [2, 10], 75000: [4, 5] };

/** @param {number} one_to @returns {string} 1:50 000 */
const fraction = (one_to) =>
  `1:${toNearest(one_to, 100).toLocaleString("en").replaceAll(",", "\u00a0")}`;

/** @param {number} one_to @param {(x: number, y: number) => Point} at @param {number} size */
function sheetDrawn(one_to, at, size) {
  const [x, y] = at(0, 0);
  const [right, down] = at(SHEET[0], SHEET[1]);
  const [left, top] = at(8, 10);
  const words = { style: `font-size: ${6.4 * size}px`, "text-anchor": "start" };
  const [checkX, checkY] = at(START[0], 80);
  const [checkEnd] = at(START[0] + 100, 80);
  return [
    draw("rect", { class: "nav-page", x, y, width: right - x, height: down - y }),
    draw("path", {
      class: "nav-land",
      d: "M168 4C154 6 162 16 152 19S142 34 154 38S162 52 168 53Z",
      transform: `translate(${x} ${y}) scale(${size})`,
      "vector-effect": "non-scaling-stroke",
    }),
    label(say("Training sheet {fraction}", { fraction: fraction(one_to) }), left, top, {
      ...words,
      class: "nav-strong",
    }),
    draw("path", {
      class: "nav-axis",
      d:
        `M${checkX} ${checkY}H${checkEnd}` +
        Array.from({ length: 11 }, (_, n) => `M${checkX + n * 10 * size} ${checkY - 4}v8`).join(""),
    }),
    label(say("check: 100 mm"), checkEnd + 3 * size, checkY + 1.6 * size, {
      style: `font-size: ${Math.max(15, 4.6 * size)}px`,
      "text-anchor": "start",
    }),
  ];
}

/**
 * The bar of nautical miles: whole ones right of zero, one in parts left of it.
 * @param {number} mile mm on the sheet @param {number} right @param {number} parts
 * @param {(x: number, y: number) => Point} at
 */
function barDrawn(mile, right, parts, at) {
  const blocks = [];
  const zero = START[0] + mile;
  const thick = at(0, 3)[1] - at(0, 0)[1];
  for (let n = -parts; n < right; n++) {
    const [from, wide] = n < 0 ? [zero + (n * mile) / parts, mile / parts] : [zero + n * mile, mile];
    const [x, y] = at(from, BAR);
    const dark = n % 2 === 0;
    blocks.push(
      draw("rect", {
        class: dark ? "nav-dark" : "nav-light",
        x,
        y,
        width: at(wide, 0)[0] - at(0, 0)[0],
        height: thick,
      }),
    );
  }
  const style = `font-size: ${Math.max(17, at(0, 5.4)[1] - at(0, 0)[1])}px`;
  for (let n = -1; n <= right; n++) {
    const last = n === right;
    const [x, y] = at(zero + n * mile + (last ? 4 : 0), BAR + 8.2);
    const words = last ? `${n} NM` : String(Math.abs(n));
    blocks.push(label(words, x, y, { style, "text-anchor": last ? "end" : "middle" }));
  }
  return blocks;
}

/** A ruler as long as it says, from its zero on. @param {number} most mm */
function millimetres(most) {
  const marks = [draw("rect", { class: "nav-laid", x: -6, y: 0, width: most * MM + 12, height: 50 })];
  for (let mm = 0; mm <= most; mm++) {
    const tall = mm % 10 === 0 ? 18 : mm % 5 === 0 ? 13 : 8;
    marks.push(draw("path", { class: "nav-axis", d: `M${mm * MM} 0v${tall}` }));
    if (mm % 20 === 0) marks.push(label(String(mm), mm * MM, 40, { class: "nav-fine" }));
  }
  return draw("g", { class: "nav-mm" }, ...marks);
}
