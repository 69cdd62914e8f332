// @ts-check
// The upper part of a compass rose, a strip of years below it, and how a rose's figures are written.

const FOOT = [320, 650]; // the middle of the rose; only its upper part is in the picture
const RIM = 590;
const BROAD = 30; // degrees drawn to either side of true north
const STRIP = 404; // where the strip of years lies
const [FIRST, LAST] = [1990, 2050];
const yearAt = (/** @type {number} */ year) => 40 + ((year - FIRST) / (LAST - FIRST)) * 560;

/** @param {number} minutes of arc, east positive @returns {string} as a rose has it: 2°22'W */
function degreesMinutes(minutes) {
  const size = Math.abs(minutes);
  const side = size === 0 ? "" : minutes > 0 ? "E" : "W";
  return `${Math.floor(size / 60)}°${two(size % 60)}'${side}`;
}

/** @param {number} minutes @returns {string} the same without its side: 2°22' */
const sizeOf = (minutes) => degreesMinutes(minutes).replace(/[EW]$/, "");

/** @param {number} minutes @returns {string} a change in one year: 14'E */
const yearlyWords = (minutes) =>
  minutes === 0 ? "0'" : `${Math.abs(minutes)}'${minutes > 0 ? "E" : "W"}`;

/** @param {string} text @returns {number} minutes of arc, NaN if it is no yearly change */
function yearlyRead(text) {
  const found = /^\s*([-−+])?\s*(\d{1,2})\s*['’′]?\s*([EeWw])?\s*$/.exec(text);
  if (!found) return NaN;
  const west = found[3] ? /w/i.test(found[3]) : found[1] === "-" || found[1] === "−";
  return west ? -Number(found[2]) : Number(found[2]);
}

/** The upper part of a rose: degrees to either side of true north. */
function upperRing() {
  const parts = [RIM, RIM - 26].map((radius) =>
    draw("path", { class: "nav-axis", d: arcPath(radius, -BROAD, BROAD) }),
  );
  for (let at = -BROAD; at <= BROAD; at++) {
    const from = RIM - (at % 10 === 0 ? 26 : at % 5 === 0 ? 18 : 10);
    const d = `M${along(0, 0, at, from)}L${along(0, 0, at, RIM)}`;
    parts.push(draw("path", { class: "nav-axis", d }));
    if (at % 10 || Math.abs(at) === BROAD) continue;
    const [x, y] = along(0, 0, at, RIM + 12);
    parts.push(label(eastWest(at), x, y));
  }
  return draw("g", {}, ...parts);
}

/** The strip of years. */
function yearAxis() {
  const parts = [draw("path", { class: "nav-axis", d: `M${yearAt(FIRST)} ${STRIP}H${yearAt(LAST)}` })];
  for (let year = FIRST; year <= LAST; year += 5) {
    const long = year % 10 === 0;
    const d = `M${yearAt(year)} ${STRIP}v${long ? 14 : 8}`;
    parts.push(draw("path", { class: "nav-axis", d }));
    if (long) parts.push(label(String(year), yearAt(year), STRIP + 42));
  }
  return draw("g", {}, ...parts);
}

/** The years between, on the strip. @param {number} year @param {number} now */
function span(year, now) {
  const [from, to] = [yearAt(year), yearAt(now)];
  return [
    draw("path", { class: "nav-hop", d: `M${from} ${STRIP}V${STRIP - 30}H${to}V${STRIP}` }),
    draw("circle", { class: "nav-dot", cx: from, cy: STRIP, r: 8 }),
  ];
}
