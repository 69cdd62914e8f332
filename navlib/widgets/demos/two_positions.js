// @ts-check
// Two positions, not far apart: minutes of latitude are miles, minutes of longitude are not.

const [AT_X, AT_Y, MILE_WIDE] = [320, 232, 14]; // where A lies, and px for a mile
const [MOST_EAST, MOST_NORTH] = [20, 15]; // minutes
const EVERY = 5; // minutes between lines

/** @param {number} degrees @returns {number} */
const cosine = (degrees) => Math.cos((degrees * Math.PI) / 180);

/**
 * An angle as it is written at sea, to a tenth of a minute.
 * @param {number} minutes from zero @param {number} width of the degrees @param {string} letter
 */
function atSea(minutes, width, letter) {
  const all = toNearest(minutes * 10, 1);
  const degrees = String(Math.floor(all / 600)).padStart(width, "0");
  return `${degrees}°${((all % 600) / 10).toFixed(1).padStart(4, "0")}'${letter}`;
}

/** @param {{model: any, el: HTMLElement}} context */
function render({ model, el: root }) {
  /** @param {string} name */
  const get = (name) => model.get(name);
  /** @type {(place: Pair, done: boolean) => void} */
  function move([east, north], done) {
    model.set("east", within(toNearest(east * 10, 1) / 10, -MOST_EAST, MOST_EAST));
    model.set("north", within(toNearest(north * 10, 1) / 10, -MOST_NORTH, MOST_NORTH));
    if (done) model.save_changes();
  }
  const now = () => /** @type {Pair} */ ([get("east"), get("north")]);
  const narrow = () => cosine(get("latitude") + get("north") / 120);
  const plane = {
    /** @param {Pair} place  minutes @returns {Pair} */
    at: ([east, north]) => [AT_X + east * narrow() * MILE_WIDE, AT_Y - north * MILE_WIDE],
    /** @param {Pair} spot @returns {Pair} */
    from: ([x, y]) => [(x - AT_X) / narrow() / MILE_WIDE, (AT_Y - y) / MILE_WIDE],
  };

  const under = draw("g", {});
  const name = lettered("B");
  const there = movable("B", MOST_EAST, dot(), name);
  const drawing = drawingOf(
    540,
    under,
    draw(
      "g",
      { transform: `translate(${AT_X} ${AT_Y})` },
      draw("circle", { class: "nav-here", r: 8 }),
      lettered("A"),
    ),
    there,
    draw("path", { class: "nav-stream", d: `M46 494v14h${5 * MILE_WIDE}v-14` }),
    label(say("5 NM"), 46 + 5 * MILE_WIDE + 14, 512, { "text-anchor": "start" }),
  );
  const distance = reading(say("to B"));
  const direction = reading(say("true bearing"));
  const positions = el("ul", { class: "nav-sums" });
  const sums = el("ul", { class: "nav-sums" });
  const minutesSaid = (/** @type {number} */ value) => `${tenths(value)}′`;
  const latitude = quantityControl(
    say("Latitude of A, north"),
    { min: 0, max: 75, step: 1, unit: "°", say: (value) => `${value}° N` },
    (value, done) => {
      model.set("latitude", toNearest(value, 1));
      if (done) model.save_changes();
    },
  );
  const eastward = quantityControl(
    say("B lies east: + east, − west"),
    { min: -MOST_EAST, max: MOST_EAST, step: 0.1, unit: "′", say: minutesSaid },
    (value, done) => move([value, get("north")], done),
  );
  const northward = quantityControl(
    say("B lies north: + north, − south"),
    { min: -MOST_NORTH, max: MOST_NORTH, step: 0.1, unit: "′", say: minutesSaid },
    (value, done) => move([get("east"), value], done),
  );
  const { node, sentence } = demoFrame(
    say("Two positions, one leg"),
    say("Two places among lines of latitude and longitude, drawn to a scale of miles"),
    drawing,
    positions,
    distance.node,
    direction.node,
    sums,
    latitude.node,
    eastward.node,
    northward.node,
  );

  function show() {
    const [[east, north], cos] = [now(), narrow()];
    const start = get("latitude") * 60;
    const away = get("longitude") * 60 + 30; // minutes west
    const miles_east = east * cos;
    const far = Math.hypot(miles_east, north);
    const way = bearing(towards(0, 0, miles_east, -north), "T");
    const written = (/** @type {number} */ dlat, /** @type {number} */ dlong) =>
      `${atSea(start + dlat, 2, "N")} ${atSea(away - dlong, 3, "W")}`;
    under.replaceChildren(...lines(plane), ...leg(plane, [east, north]));
    set(there, {
      transform: `translate(${plane.at([east, north]).join(" ")})`,
      "aria-valuenow": east,
      "aria-valuetext": `${written(north, east)}: ${miles(far)}, ${way}`,
    });
    above(name, plane.at([east, north])[1]);
    showLines(positions, [`A  ${written(0, 0)}`, `B  ${written(north, east)}`]);
    distance.value.textContent = miles(far);
    direction.value.textContent = far ? way : "–";
    showLines(sums, [
      say("Latitude: {minutes}′ = {miles}", { minutes: tenths(Math.abs(north)), miles: northOrSouth(north) }),
      say("Longitude: {minutes}′ × cos {middle}° = {miles}", {
        minutes: tenths(Math.abs(east)),
        middle: tenths(get("latitude") + north / 120),
        miles: eastOrWest(miles_east),
      }),
    ]);
    latitude.show(get("latitude"));
    eastward.show(east);
    northward.show(north);
    const wrong = bearing(towards(0, 0, east, -north), "T");
    const lost = Math.abs(east) - Math.abs(miles_east);
    sentence.textContent =
      lost < 0.05
        ? say("On the equator, and due north or south anywhere, nothing goes wrong. Take B elsewhere.")
        : say("With minutes of longitude for miles you would look for B at the dashed ring, {lost} too far {way}, on {bearing}.", {
            lost: miles(lost),
            way: east > 0 ? say("east") : say("west"),
            bearing: wrong,
          });
  }

  roams(there, drawing, { ...plane, now, step: () => 1, fine: () => 0.1 }, move);
  const watched = "change:east change:north change:latitude";
  model.on(watched, show);
  root.append(node);
  show();
  return () => model.off(watched, show);
}

/** @param {number} value @returns {string} */
const northOrSouth = (value) =>
  value < 0 ? say("{far} south", { far: miles(-value) }) : say("{far} north", { far: miles(value) });
/** @param {number} value @returns {string} */
const eastOrWest = (value) =>
  value < 0 ? say("{far} west", { far: miles(-value) }) : say("{far} east", { far: miles(value) });

/** Lines at every five minutes of latitude and of longitude.
 * @param {{at: (place: Pair) => Pair}} plane @returns {any[]} */
function lines(plane) {
  const parts = [];
  for (let minute = -MOST_EAST; minute <= MOST_EAST; minute += EVERY) {
    const x = plane.at([minute, 0])[0];
    const y = plane.at([0, MOST_NORTH])[1];
    parts.push(draw("path", { class: "nav-grid", d: `M${x} ${y}v${2 * MOST_NORTH * MILE_WIDE}` }));
  }
  const [[left], [right]] = [plane.at([-MOST_EAST, 0]), plane.at([MOST_EAST, 0])];
  for (let minute = -MOST_NORTH; minute <= MOST_NORTH; minute += EVERY) {
    const y = plane.at([0, minute])[1];
    parts.push(draw("path", { class: "nav-grid", d: `M${left} ${y}H${right}` }));
  }
  const words = say("5′ by 5′");
  const [x] = plane.at([MOST_EAST - EVERY / 2, 0]);
  return [...parts, label(words, within(x, 80, 560), 474, { class: "nav-quiet" })];
}

/** @param {{at: (place: Pair) => Pair}} plane @param {Pair} place @returns {any[]} */
function leg(plane, [east, north]) {
  const [x, y] = plane.at([east, north]);
  const wrong = AT_X + east * MILE_WIDE;
  const ghost = Math.abs(wrong - x) < 8
    ? []
    : [
        draw("path", { class: "nav-not-here", d: `M${AT_X} ${AT_Y}L${wrong} ${y}M${x} ${y}H${wrong}` }),
        draw("circle", { class: "nav-rounded", cx: wrong, cy: y, r: 11 }),
      ];
  return [
    ...ghost,
    draw("path", { class: "nav-back", d: `M${AT_X} ${AT_Y}H${x}V${y}` }),
    draw("path", { class: "nav-sight", d: `M${AT_X} ${AT_Y}L${x} ${y}` }),
  ];
}

export default { render };
