// @ts-check
// A place read at the chart's border, on either side of the equator and of Greenwich.

const AREA = { left: 130, top: 96, px: 13.2, across: 7.6 }; // px for a tenth of a minute, up and across
const [HIGH, BROAD] = [30, 60]; // tenths of a minute
const BAND = 26;
const [LAT, LON] = [
  { degrees: 58, minutes: 45 },
  { degrees: 7, minutes: 10 },
];

/** @param {{model: any, el: HTMLElement}} context */
function render({ model, el: root }) {
  /** @param {string} name */
  const get = (name) => model.get(name);
  /** @param {string} name @returns {(value: any) => void} */
  const choose = (name) => (value) => {
    model.set(name, value);
    model.save_changes();
  };
  const now = () => /** @type {Pair} */ ([get("right"), get("up")]);
  /** @param {Pair} spot @param {boolean} done */
  function move([right, up], done) {
    model.set("right", within(toNearest(right, 1), 1, BROAD - 1));
    model.set("up", within(toNearest(up, 1), 1, HIGH - 1));
    if (done) model.save_changes();
  }
  const bottom = AREA.top + HIGH * AREA.px;
  const plane = {
    /** @param {Pair} place @returns {Pair} */
    at: ([right, up]) => [AREA.left + right * AREA.across, bottom - up * AREA.px],
    /** @param {Pair} spot @returns {Pair} */
    from: ([x, y]) => [(x - AREA.left) / AREA.across, (bottom - y) / AREA.px],
  };
  /** Minutes of the place: which way they grow depends on the side. */
  const minutes = () => ({
    lat: LAT.minutes + (get("north") ? get("up") : HIGH - get("up")) / 10,
    lon: LON.minutes + (get("east") ? get("right") : BROAD - get("right")) / 10,
  });

  const edges = draw("g", {});
  const lines = draw("path", { class: "nav-across" });
  const place = movable(say("The place"), BROAD, dot());
  const drawing = drawingOf(520, edges, lines, place);
  const sides = [
    oneOf(say("North or south of the equator?"), [[true, say("North")], [false, say("South")]], choose("north")),
    oneOf(say("East or west of Greenwich?"), [[true, say("East")], [false, say("West")]], choose("east")),
    oneOf(say("What is one division?"), [[2, say("a bar is 0.2′")], [1, "0.1′"]], choose("division")),
  ];
  const read = reading("");
  const sums = el("ul", { class: "nav-sums" });
  const tenth = (/** @type {number} */ value) => say("{tenths} tenths of a minute", { tenths: value });
  const across = quantityControl(
    say("From the left edge"),
    { min: 1, max: BROAD - 1, step: 1, unit: say("tenths"), say: tenth },
    (value, done) => move([value, get("up")], done),
  );
  const upward = quantityControl(
    say("From the lower edge"),
    { min: 1, max: HIGH - 1, step: 1, unit: say("tenths"), say: tenth },
    (value, done) => move([get("right"), value], done),
  );
  const { node, sentence } = demoFrame(
    say("Read at the border"),
    say("A corner of a sea chart with minutes of latitude up the side and of longitude along the top"),
    drawing,
    el("div", { class: "nav-sides" }, ...sides.map((side) => side.node)),
    read.node,
    sums,
    across.node,
    upward.node,
  );

  function show() {
    const [north, east, division] = [get("north"), get("east"), get("division")];
    const { lat, lon } = minutes();
    const [x, y] = plane.at(now());
    edges.replaceChildren(...sideEdge(plane, north, division), ...topEdge(plane, east, division));
    set(lines, { d: `M${x} ${y}H${AREA.left}M${x} ${y}V${AREA.top}` });
    const latitude = `${LAT.degrees}°${tenths(lat)}'${north ? "N" : "S"}`;
    const written = `${latitude} 00${LON.degrees}°${tenths(lon)}'${east ? "E" : "W"}`;
    set(place, {
      transform: `translate(${x} ${y})`,
      "aria-valuenow": get("right"),
      "aria-valuetext": written,
    });
    for (const [n, now] of [north, east, division].entries()) sides[n].show(now);
    read.value.textContent = written;
    showLines(sums, [
      counted(say("Side"), lat, division),
      counted(say("Top"), lon, division),
      ...miscounted(lat, lon, division),
    ]);
    across.show(get("right"));
    upward.show(get("up"));
    sentence.textContent = wrongWay(lat, lon, north, east);
  }

  roams(place, drawing, { ...plane, now, step: () => 5, fine: () => 1 }, move);
  const watched = "change:right change:up change:north change:east change:division";
  model.on(watched, show);
  root.append(node);
  show();
  return () => model.off(watched, show);
}

/** @typedef {{at: (place: Pair) => Pair}} Plane */

/** The latitude at the side: bars, one for each division, and a number at each minute.
 * @param {Plane} plane @param {boolean} north @param {number} division @returns {any[]} */
function sideEdge(plane, north, division) {
  const parts = [];
  for (let up = 0; up < HIGH; up += division) {
    const [x, y] = plane.at([0, up + division]);
    const shade = (up / division) % 2 ? "nav-part-dark" : "nav-part-light";
    parts.push(
      draw("rect", { class: shade, x: x - BAND, y, width: BAND, height: division * AREA.px }),
    );
  }
  for (let up = 0; up <= HIGH; up += 10) {
    const [x, y] = plane.at([0, up]);
    const minute = LAT.minutes + (north ? up : HIGH - up) / 10;
    const words = up % HIGH ? `${minute}′` : `${LAT.degrees}°${minute}′`;
    parts.push(
      draw("path", { class: "nav-grid", d: `M${x - BAND - 8} ${y}H${x + BROAD * AREA.across}` }),
      label(words, x - BAND - 12, y + (up ? (up === HIGH ? 22 : 8) : 0), { class: "nav-strong", "text-anchor": "end" }),
    );
  }
  const middle = plane.at([0, HIGH / 2])[1];
  return [
    ...parts,
    label(north ? "N" : "S", 56, middle + 12, { class: "nav-lettered" }),
    growing(88, middle, north ? 0 : 180),
  ];
}

/** The longitude along the top.
 * @param {Plane} plane @param {boolean} east @param {number} division @returns {any[]} */
function topEdge(plane, east, division) {
  const parts = [];
  for (let right = 0; right < BROAD; right += division) {
    const [x, y] = plane.at([right, HIGH]);
    const shade = (right / division) % 2 ? "nav-part-dark" : "nav-part-light";
    parts.push(
      draw("rect", { class: shade, x, y: y - BAND, width: division * AREA.across, height: BAND }),
    );
  }
  for (let right = 0; right <= BROAD; right += 10) {
    const [x, y] = plane.at([right, HIGH]);
    const minute = LON.minutes + (east ? right : BROAD - right) / 10;
    const first = minute === LON.minutes;
    parts.push(
      draw("path", { class: "nav-grid", d: `M${x} ${y - BAND - 8}V${y + HIGH * AREA.px}` }),
      label(first ? `${LON.degrees}°${minute}′` : `${minute}′`, x, y - BAND - 12, { class: "nav-strong" }),
    );
  }
  const middle = plane.at([BROAD / 2, 0])[0];
  return [
    ...parts,
    label(east ? "E" : "W", middle, 36, { class: "nav-lettered" }),
    growing(middle + (east ? 54 : -54), 24, east ? 90 : -90),
  ];
}

/** An arrow the way the numbers grow. @param {number} x @param {number} y @param {number} turn */
const growing = (x, y, turn) =>
  draw("path", {
    class: "nav-stream",
    transform: `translate(${x} ${y}) rotate(${turn})`,
    d: "M0 26V-24M-9 -12L0 -26L9 -12",
  });

/** @param {string} edge @param {number} minute @param {number} division  in tenths @returns {string} */
function counted(edge, minute, division) {
  const whole = Math.floor(minute + 1e-9);
  const part = toNearest((minute - whole) * 10, 1) / division;
  const times = `${Math.floor(part) || (part % 1 ? "" : 0)}${part % 1 ? "½" : ""}`;
  return say("{edge}: {whole}′ and {times} × {worth}′ = {minute}′", {
    ...{ edge, whole, times },
    worth: division / 10,
    minute: tenths(minute),
  });
}

/** What comes of taking a bar for the other chart's.
 * @param {number} lat @param {number} lon @param {number} division @returns {string[]} */
function miscounted(lat, lon, division) {
  const other = 3 - division;
  const taken = (/** @type {number} */ minute) => {
    const whole = Math.floor(minute + 1e-9);
    return whole + ((minute - whole) * other) / division;
  };
  const [up, along] = [taken(lat), taken(lon)];
  if (Math.floor(up) > lat || Math.floor(along) > lon) return [];
  const values = { bar: other / 10, lat: toNearest(up * 100, 1) / 100, lon: toNearest(along * 100, 1) / 100 };
  return [say("A bar taken for {bar}′: {lat}′ and {lon}′, wrong", values)];
}

/** What comes of counting as on a ruler: to the right and upwards, from the number there.
 * @param {number} lat @param {number} lon @param {boolean} north @param {boolean} east */
function wrongWay(lat, lon, north, east) {
  const back = (/** @type {number} */ minute) => 2 * Math.ceil(minute - 1e-9) - minute;
  const parts = { lon: tenths(back(lon)), lat: tenths(back(lat)) };
  if (!east && back(lon) !== lon) {
    return say("West: numbers grow to the left. Counted to the right, from the number on the left, it would be {lon}′: wrong.", parts);
  }
  if (!north && back(lat) !== lat) {
    return say("South: numbers grow downwards. Counted upwards, from the number below, it would be {lat}′: wrong.", parts);
  }
  return say("Look at the next two numbers on the border before you count: they say which way it goes.");
}

export default { render };
