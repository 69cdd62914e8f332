// @ts-check
// What the demonstrations of tides share: the rules, heights in writing, handles that go up and down.

const SHARES = [0, 1, 3, 6, 9, 11, 12].map((twelfths) => twelfths / 12); // 1, 2, 3, 3, 2, 1
const SIXTHS = [0, 1, 2, 3, 4, 5, 6].map((hours) => hours / 6);

/** @typedef {[number, number, number]} Turn  minutes from midnight UT, metres, 1 for high water */

/**
 * What lies in step between listed values; beyond them the first or the last.
 * @param {number} x @param {number[]} xs rising or falling @param {number[]} ys
 */
function inStep(x, xs, ys) {
  if (xs[0] > xs[xs.length - 1]) return inStep(x, [...xs].reverse(), [...ys].reverse());
  if (x <= xs[0]) return ys[0];
  const next = xs.findIndex((one) => one >= x);
  if (next < 0) return ys[ys.length - 1];
  const part = (x - xs[next - 1]) / (xs[next] - xs[next - 1]);
  return ys[next - 1] + part * (ys[next] - ys[next - 1]);
}

/** @param {Turn} from @param {Turn} to @param {number} minutes @returns {number} height by twelfths */
const byTwelfths = ([start, first], [end, last], minutes) =>
  first + (last - first) * inStep((minutes - start) / (end - start), SIXTHS, SHARES);

/** @param {Turn} from @param {Turn} to @param {number} level @returns {number} when, NaN if never */
function passesAt([start, first], [end, last], level) {
  const share = (level - first) / (last - first);
  return share > 0 && share < 1 ? start + (end - start) * inStep(share, SHARES, SIXTHS) : NaN;
}

/** Today's rate from mean rates and mean ranges, at springs and at neaps.
 * @param {number[]} rates @param {number[]} means @param {number} range */
function rateToday([springs, neaps], [atSprings, atNeaps], range) {
  const part = (range - atNeaps) / (atSprings - atNeaps);
  return Math.max(neaps + (springs - neaps) * part, 0);
}

/** @param {number} value @param {number} [places] @returns {string} rounded, a half going up */
function decimal(value, places = 1) {
  const step = 10 ** places;
  const whole = Math.floor(value * step + 0.5 + 1e-9) + 0;
  return `${whole < 0 ? "−" : ""}${(Math.abs(whole) / step).toFixed(places)}`;
}

/** @param {number} value @returns {string} 3.2 m */
const metres = (value) => `${decimal(value)} m`;
/** @param {number} value @returns {string} +0.2, −0.3, or 0 without a sign */
const withSign = (value, places = 1) => {
  const written = decimal(value, places);
  return Number(written) > 0 ? `+${written}` : written;
};
/** @param {Turn} turn @returns {string} HW 0729 5.0 m */
const turnWords = ([minutes, height, high]) =>
  say("{kind} {time} UT {height}", {
    kind: high ? "HW" : "LW",
    time: clock(minutes),
    height: metres(height),
  });

/** @param {[number, number][]} points @returns {string} the path through them */
const pathThrough = (points) => points.map(([x, y], n) => `${n ? "L" : "M"}${x} ${y}`).join("");

/**
 * A handle that goes up and down in a drawing, by pointer or arrow keys.
 * @param {any} handle @param {any} drawing
 * @param {{from: (y: number) => number, now: () => number, step: number, fine: number}} scale  from
 *   gives the value at a height in the drawing
 * @param {(value: number, done: boolean) => void} told
 */
function rises(handle, drawing, { from, now, step, fine }, told) {
  let held = 0; // from where it is held to where it points
  draggable(
    handle,
    drawing,
    (_x, y, _startX, startY) => told(toNearest(from(y - startY) - from(0) + held, fine), false),
    () => told(now(), true),
    () => (held = now()),
  );
  arrows(handle, (x, y, less) => {
    const by = less ? fine : step;
    told(toNearest(now() + (x + y) * by, by), true);
  });
}

/** A grip that goes up and down, its middle at 0, 0. */
const upDownGrip = () =>
  draw(
    "g",
    {},
    draw("circle", { class: "nav-reach", r: 34 }),
    draw("circle", { class: "nav-place", r: 17 }),
    draw("path", { class: "nav-bow", d: "M-6 -5L0 -10L6 -5M-6 5L0 10L6 5" }),
  );

/**
 * A handle to move up and down a drawing.
 * @param {string} name @param {number} min @param {number} max
 */
const riser = (name, min, max) => pulled("nav-upward", name, min, max, upDownGrip());

/**
 * An axis of heights at the left of a drawing, a line and a figure at each metre.
 * @param {(metres: number) => number} at @param {number} most @param {number} left
 * @param {number} right
 */
function heightAxis(at, most, left, right) {
  const parts = [];
  for (let metre = 0; metre <= most; metre++) {
    parts.push(
      draw("path", {
        class: metre ? "nav-faint" : "nav-axis",
        d: `M${left} ${at(metre)}H${right}`,
      }),
      label(String(metre), left - 10, at(metre) + 8, { "text-anchor": "end" }),
    );
  }
  return draw("g", {}, ...parts);
}

/**
 * The hours of a day along the foot of a drawing.
 * @param {(minutes: number) => number} at @param {number} y @param {number} [every] hours
 */
function dayAxis(at, y, every = 3) {
  const parts = [draw("path", { class: "nav-axis", d: `M${at(0)} ${y}H${at(DAY)}` })];
  for (let hour = 0; hour <= 24; hour++) {
    const long = hour % every === 0;
    parts.push(draw("path", { class: "nav-axis", d: `M${at(hour * HOUR)} ${y}v${long ? 12 : 6}` }));
    if (long) parts.push(label(two(hour), at(hour * HOUR), y + 36));
  }
  return draw("g", {}, ...parts);
}

/**
 * Settings of a model that a control changes.
 * @param {any} model
 * @returns {(name: string, low?: number, high?: number) => (value: any, done?: boolean) => void}
 */
const changer =
  (model) =>
  (name, low = -Infinity, high = Infinity) =>
  (value, done = true) => {
    model.set(name, typeof value === "number" ? within(value, low, high) : value);
    if (done) model.save_changes();
  };
