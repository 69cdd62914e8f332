// @ts-check
// The sea in section: levels, bottom, bridge and boat, each drawn at its height.

/** A level with its name and height at the left edge; names that lie close give way.
 * @param {string} name @param {number} height @param {number} n from the top */
function level(name, height, n) {
  const y = down(height);
  const shift = n % 2 ? 10 : -2;
  return [
    draw("path", { class: "nav-axis", d: `M${POLE - 12} ${y}h24` }),
    label(`${name} ${decimal(height)}`, POLE - 18, y + shift + 5, { "text-anchor": "end", class: "nav-sub" }),
  ];
}

/** @param {number} ground @returns {string} the bottom as a hump with a flat top under the boat */
function seaBed(ground) {
  const [top, low] = [down(ground), Math.max(down(ground) + 26, down(-1.6))];
  return (
    `M${POLE} ${FLOOR - 2}V${low}C172 ${low} 172 ${top} 216 ${top}H456` +
    `C500 ${top} 500 ${low} 540 ${low}H638V${FLOOR - 2}Z`
  );
}

/** The underside of a bridge, and the road on it. @param {number} height */
function bridge(height) {
  const y = down(height);
  return draw("path", {
    class: "nav-span",
    d: `M${POLE} ${y - 26}V${y}H638V${y - 26}Z`,
  });
}

/** @param {number} water @param {number} draught @param {number} mast */
function boat(water, draught, mast) {
  const [line, keel, top] = [down(water), down(water - draught), down(water + mast)];
  const deck = line - Math.min(26, 12 + draught * 10);
  const half = 34 + draught * 16;
  return draw(
    "g",
    {},
    draw("path", { class: "nav-mast", d: mast > 1 ? `M${BOAT} ${deck}V${top}` : "" }),
    draw("path", {
      class: "nav-hull",
      d: `M${BOAT - half} ${deck}H${BOAT + half}Q${BOAT + half - 8} ${keel} ${BOAT} ${keel}Q${BOAT - half + 8} ${keel} ${BOAT - half} ${deck}Z`,
    }),
    mast > 1
      ? draw("g", {})
      : draw("path", { class: "nav-mast", d: `M${BOAT} ${deck}V${top + 8}m-22 14l44 -12` }),
  );
}

/** A measure between bottom and water with its words.
 * @param {number} x @param {number} ground @param {number} water @param {string} words */
function gauge(x, ground, water, words) {
  const [low, high] = [down(ground), down(water)];
  if (Math.abs(high - low) < 4) return [];
  return [
    draw("path", { class: "nav-gauge", d: `M${x - 9} ${low}h18M${x} ${low}V${high}M${x - 9} ${high}h18` }),
    label(words, x + 14, (low + high) / 2 + 8, { "text-anchor": "start", class: "nav-strong nav-on-paper" }),
  ];
}

/** The printed clearance: from HAT up to the bridge. @param {number} hat @param {number} clearance */
function printed(hat, clearance) {
  const [low, high, x] = [down(hat), down(hat + clearance), 470];
  return [
    draw("path", { class: "nav-not-here", d: `M${POLE} ${low}H638` }),
    draw("path", { class: "nav-axis", d: `M${x - 9} ${high}h18M${x} ${high}V${low}M${x - 9} ${low}h18` }),
    label(metres(clearance), x + 14, (low + high) / 2, { "text-anchor": "start", class: "nav-strong" }),
    label(say("above HAT"), x + 14, (low + high) / 2 + 28, { "text-anchor": "start" }),
  ];
}

/** How the chart writes this bottom: metres, small decimetres, a line under what dries.
 * @param {number} ground */
function charted(ground) {
  const [whole, part] = decimal(Math.abs(ground)).split(".");
  const y = FLOOR - 18;
  const words = label(say("On the chart:"), 320, y, { "text-anchor": "end" });
  return [
    words,
    label(whole, 338, y, { "text-anchor": "start", class: "nav-strong" }),
    label(part, 353, y + 7, { "text-anchor": "start", class: "nav-strong nav-sub" }),
    draw("path", { class: "nav-underline", d: ground > 0 ? `M336 ${y + 6}h16` : "" }),
  ];
}

/** @param {number} x @param {number} y @returns {string} */
const crossAt = (x, y) => `M${x - 14} ${y - 14}l28 28m0 -28l-28 28`;
