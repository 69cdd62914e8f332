// @ts-check
// A secondary port's differences as two lines: minutes through the day, metres by the height.

const LEFT = 78;
const RIGHT = 610;
const across = scale(LEFT, RIGHT, DAY);
const [TOP, TOP_FOOT, LOW, LOW_FOOT] = [52, 206, 318, 464];

/** @typedef {{hours: [number, number], minutes: [number, number], levels: [number, number],
 *   metres: [number, number]}} Half */

/** @param {Half} half @returns {[number[], number[]]} minutes of the day and the differences there */
function columns({ hours, minutes }) {
  const all = [-1, 0, 1, 2].flatMap((k) => hours.map((hour, n) => [(hour + 12 * k) * HOUR, minutes[n]]));
  all.sort(([one], [other]) => one - other);
  return [all.map(([at]) => at), all.map(([, by]) => by)];
}

/** @param {Half} half @param {number} at minutes from midnight @returns {number} */
const minutesAt = (half, at) => inStep(at, ...columns(half));

/** @param {Half} half @param {number} height @returns {number} on beyond springs and neaps */
function metresAt({ levels: [springs, neaps], metres: [atSprings, atNeaps] }, height) {
  return atNeaps + ((atSprings - atNeaps) * (height - neaps)) / (springs - neaps);
}

/** @param {number[]} pair what lies between top and foot @param {number} top @param {number} foot */
function upward(pair, top, foot) {
  const [least, most] = [Math.min(...pair), Math.max(...pair)];
  const [low, high] = [foot - 46, top + 46];
  return (/** @type {number} */ value) => low - ((value - least) / (most - least)) * (low - high);
}

/** @param {number} x @param {number} y @param {number} foot */
const reach = (x, y, foot) => [
  draw("path", { class: "nav-now", d: `M${x} ${foot}V${y}H${LEFT}` }),
  draw("circle", { class: "nav-now-point", cx: x, cy: y, r: 9 }),
];

/** Where the watch's hour would be looked up. @param {number} x @param {number} y */
function ghost(x, y) {
  if (x > RIGHT - 10) return [];
  return [draw("circle", { class: "nav-elsewhere", cx: x, cy: y, r: 9 }), label("BST", x + 4, y - 18, { class: "nav-quiet nav-on-paper" })];
}

/** @param {Half} half @param {(minutes: number) => number} up */
function timeGraph(half, up) {
  const [at, by] = columns(half);
  const shown = at.map((when, n) => /** @type {const} */ ([when, by[n]])).filter(([when]) => when >= 0 && when <= DAY);
  const ends = [0, DAY].map((when) => /** @type {[number, number]} */ ([when, minutesAt(half, when)]));
  const line = [...ends, ...shown].sort(([one], [other]) => one - other);
  return [
    label(say("minutes, by the hour at Kessoray Harbour"), LEFT - 62, TOP - 22, { "text-anchor": "start", class: "nav-strong" }),
    draw("path", { class: "nav-water-line", d: pathThrough(line.map(([when, value]) => [across(when), up(value)])) }),
    ...half.minutes.map((value) => label(withSign(value, 0), LEFT - 12, up(value) + 8, { "text-anchor": "end" })),
    ...shown.map(([when, value]) => draw("circle", { class: "nav-dot", cx: across(when), cy: up(value), r: 7 })),
    dayAxis(across, TOP_FOOT),
  ];
}

/** @param {Half} half @param {(height: number) => number} sideways
 * @param {(metres: number) => number} up @param {boolean} high */
function heightGraph(half, sideways, up, high) {
  const names = high ? ["MHWS", "MHWN"] : ["MLWS", "MLWN"];
  const ends = [LEFT, RIGHT];
  const heights = ends.map((x) => heightOf(x, sideways));
  return [
    label(say("metres, by the height at Kessoray Harbour"), LEFT - 62, LOW - 30, { "text-anchor": "start", class: "nav-strong" }),
    draw("path", {
      class: "nav-water-line",
      d: pathThrough(ends.map((x, n) => [x, up(metresAt(half, heights[n]))])),
    }),
    ...half.metres.map((value) => label(withSign(value), LEFT - 12, up(value) + 8, { "text-anchor": "end" })),
    ...half.levels.map((value, n) => draw("circle", { class: "nav-dot", cx: sideways(value), cy: up(half.metres[n]), r: 7 })),
    draw("path", { class: "nav-axis", d: `M${LEFT} ${LOW_FOOT}H${RIGHT}` }),
    ...half.levels.flatMap((value, n) => [
      draw("path", { class: "nav-axis", d: `M${sideways(value)} ${LOW_FOOT}v12` }),
      label(`${names[n]} ${decimal(value)}`, sideways(value), LOW_FOOT + 38),
    ]),
  ];
}

/** @param {number} x @param {(height: number) => number} sideways @returns {number} */
const heightOf = (x, sideways) => (x - sideways(0)) / (sideways(1) - sideways(0));
