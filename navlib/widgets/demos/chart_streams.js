// @ts-check
// Streams on a small chart: land, arrows by set and rate, diamonds with their letters, a strip of hours.

/** @param {number[]} flat x, y, x, y ... @returns {string} */
function ring(flat) {
  const points = [];
  for (let n = 0; n < flat.length; n += 2) points.push(`${flat[n]} ${flat[n + 1]}`);
  return `M${points.join("L")}Z`;
}

/** @param {[number, number]} at its middle @param {number} to @param {number} rate knots */
function smallArrow([x, y], to, rate) {
  if (rate < 0.15) return "";
  const half = 4 + rate * 4;
  const [tail, head] = [along(x, y, to + 180, half), along(x, y, to, half)];
  const barbs = [150, 210].map((turn) => along(...head, to + turn, 6));
  return `M${tail}L${head}M${barbs[0]}L${head}L${barbs[1]}`;
}

/** @param {[number, number]} at where it starts @param {number} to @param {number} rate knots */
function bigArrow(at, to, rate) {
  const long = 34 + rate * 26;
  const side = (/** @type {number} */ far, /** @type {number} */ wide) =>
    along(...along(...at, to, far), to + 90, wide);
  const outline = [
    side(18, 4),
    side(long - 20, 4),
    side(long - 20, 13),
    side(long, 0),
    side(long - 20, -13),
    side(long - 20, -4),
    side(18, -4),
  ];
  return draw("path", { class: "nav-arrow-big", d: rate < 0.05 ? "" : `M${outline.join("L")}Z` });
}

/** @param {string} letter @param {[number, number]} at @param {boolean} chosen */
function lozenge(letter, [x, y], chosen) {
  const size = chosen ? 21 : 17;
  return draw(
    "g",
    {},
    draw("path", {
      class: `nav-letter-mark ${chosen ? "nav-letter-chosen" : ""}`,
      d: `M${x} ${y - size}L${x + size} ${y}L${x} ${y + size}L${x - size} ${y}Z`,
    }),
    label(letter, x, y + 8, { class: "nav-strong" }),
  );
}

/** True north. @param {number} x @param {number} y of its middle */
const northArrow = (x, y) =>
  draw(
    "g",
    {},
    draw("path", { class: "nav-axis", d: `M${x} ${y + 26}V${y - 20}M${x - 8} ${y - 6}L${x} ${y - 20}L${x + 8} ${y - 6}` }),
    label("T", x, y - 28, { class: "nav-strong" }),
  );

/** The thirteen hours, that of now, and where the watch's own figures would lie.
 * @param {number} hour @param {number} minutes @param {number} ahead */
function cells(hour, minutes, ahead) {
  const wrong = minutes + ahead;
  return [
    ...Array.from({ length: 13 }, (_, n) => {
      const one = n - 6;
      return draw(
        "g",
        {},
        draw("rect", {
          class: `nav-row ${one === hour ? "nav-row-now" : ""}`,
          x: hourAt(one * HOUR - 30),
          y: STRIP,
          width: CELL,
          height: 40,
        }),
        label(one === 0 ? "HW" : `${one < 0 ? "−" : "+"}${Math.abs(one)}`, hourAt(one * HOUR), STRIP + 29, {
          class: one === hour ? "nav-strong" : "",
        }),
      );
    }),
    draw("path", { class: "nav-now", d: `M${hourAt(minutes)} ${STRIP + 40}v10` }),
    label(say("hours from high water at Kessoray Harbour"), 22, STRIP - 12, {
      "text-anchor": "start",
    }),
    ...(ahead && wrong < REACH
      ? [
          draw("path", { class: "nav-not-here", d: `M${hourAt(wrong)} ${STRIP + 40}v10` }),
          draw("circle", { class: "nav-elsewhere", cx: hourAt(wrong), cy: STRIP + 64, r: 14 }),
          label(say("watch"), hourAt(wrong) + (wrong > 4 * HOUR ? -64 : 22), STRIP + 72, {
            class: "nav-quiet",
            "text-anchor": wrong > 4 * HOUR ? "end" : "start",
          }),
        ]
      : []),
  ];
}
