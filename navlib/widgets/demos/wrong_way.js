// @ts-check
// One line and four norths; and where a boat goes that has put an angle on the wrong way.

/** How far out each north's letter stands. @type {Record<string, number>} */
const LENGTHS = { T: 370, G: 305, M: 240, C: 175 };

/**
 * How far out a mark at a bearing stands: near the edge of the drawing, whose foot is low.
 * @param {number} degrees @returns {number}
 */
function edge(degrees) {
  const [x, y] = along(0, 0, degrees, 1);
  return Math.min(280 / Math.max(Math.abs(x), 0.01), (y < 0 ? 416 : 116) / Math.max(Math.abs(y), 0.01));
}

/**
 * The four figures of a line, from its true bearing.
 * @param {number} bearingTrue @param {number} variation @param {number} deviation
 * @param {number} convergence @returns {Record<string, number>}
 */
const fourFigures = (bearingTrue, variation, deviation, convergence) => ({
  T: wrap(bearingTrue),
  G: wrap(bearingTrue - convergence),
  M: wrap(bearingTrue - variation),
  C: wrap(bearingTrue - variation - deviation),
});

/**
 * By how much a slip makes the steered figure too large: so far to the right the boat goes.
 * @param {string} slip @param {number} variation @param {number} deviation
 * @returns {number}
 */
function slipped(slip, variation, deviation) {
  if (slip === "variation") return 2 * variation;
  if (slip === "deviation") return 2 * deviation;
  return slip === "forgotten" ? variation : 0;
}

/** @param {{model: any, el: HTMLElement}} context */
function render({ model, el: root }) {
  /** @param {string} name */
  const get = (name) => model.get(name);
  /** @param {string} name @returns {(value: any, done: boolean) => void} */
  const change = (name) => (value, done) => {
    model.set(name, value);
    if (done) model.save_changes();
  };

  const norths = Object.keys(LENGTHS).map((north) => ({ north, ...northArrow(north) }));
  const sight = draw("line", { class: "nav-sight" });
  const wedge = draw("path", { class: "nav-quarter" });
  const gone = draw("line", { class: "nav-back" });
  const boat = draw("path", { class: "nav-hull", d: "M0 -34Q15 -14 12 8T0 34Q-9 24 -12 8T0 -34Z" });
  const mark = turnedMark();
  const drawing = draw(
    "svg",
    { viewBox: "-320 -440 640 590" },
    draw("rect", { class: "nav-sea", x: -320, y: -440, width: 640, height: 590 }),
    wedge,
    sight,
    ...norths.map(({ node }) => node),
    draw("circle", { class: "nav-here", r: 6 }),
    gone,
    boat,
    mark,
  );

  const names = {
    T: say("from true north"),
    G: say("from grid north"),
    M: say("from magnetic north"),
    C: say("by the boat’s compass"),
  };
  const readings = Object.entries(names).map(([north, name]) => {
    const one = reading(name);
    one.node.prepend(arrowSample(north));
    return one;
  });
  const steered = reading(say("steered by mistake"));
  const sums = el("ul", { class: "nav-sums" });
  const slips = oneOf(
    say("What is done"),
    [
      ["none", say("Worked rightly")],
      ["variation", say("Variation the wrong way")],
      ["forgotten", say("Variation forgotten")],
      ["deviation", say("Deviation the wrong way")],
    ],
    (slip) => change("slip")(slip, true),
  );
  const waters = el(
    "div",
    { class: "nav-ways", role: "group", "aria-label": say("Figures of a water") },
    ...get("waters").map((/** @type {[string, number, number]} */ [name, variation, convergence]) =>
      button(name, () => {
        model.set({ variation, convergence });
        model.save_changes();
      }),
    ),
  );
  const angles = {
    variation: angleControl(
      say("Variation"),
      { min: -30, max: 30, step: 0.5, east: true },
      change("variation"),
    ),
    deviation: angleControl(
      say("Deviation"),
      { min: -15, max: 15, step: 0.5, east: true },
      change("deviation"),
    ),
    bearing: angleControl(
      say("True bearing of the mark"),
      { min: 0, max: 359, step: 1 },
      change("bearing"),
    ),
  };
  const { node, sentence } = demoFrame(
    say("One line, four figures"),
    say("A boat, four north arrows and the line to a mark"),
    drawing,
    ...readings.map((one) => one.node),
    steered.node,
    sums,
    waters,
    ...Object.values(angles).map((one) => one.node),
  );
  drawing.after(el("div", { class: "nav-under" }, slips.node));

  function show() {
    const [variation, deviation, slip] = [get("variation"), get("deviation"), get("slip")];
    const values = fourFigures(get("bearing"), variation, deviation, get("convergence"));
    /** @type {Record<string, number>} */
    const stands = { T: 0, G: get("convergence"), M: variation, C: variation + deviation };
    const out = slipped(slip, variation, deviation);
    for (const { north, aim } of norths) aim(stands[north], LENGTHS[north]);
    const [there, astray] = [values.T, values.T + out].map((way) => along(0, 0, way, edge(way)));
    set(sight, { x2: there[0], y2: there[1] });
    set(mark, {
      transform: `translate(${there})`,
      "aria-valuenow": toNearest(values.T, 1) % 360,
      "aria-valuetext": bearing(values.T, "T"),
    });
    set(gone, { x2: astray[0], y2: astray[1], visibility: slip === "none" ? "hidden" : "visible" });
    set(boat, { transform: `translate(${along(0, 0, values.T + out, 70)}) rotate(${values.T + out})` });
    set(wedge, { d: wedgePath(110, values.T, values.T + out) });
    for (const [n, north] of Object.keys(names).entries()) {
      readings[n].value.textContent = bearing(values[north], north);
    }
    steered.node.hidden = slip === "none";
    steered.value.textContent = bearing(values.C + out, "C");
    steered.more.textContent = say("the boat goes {way}", { way: bearing(values.T + out, "T") });
    showLines(sums, [
      `M: ${sum(values.T, variation, "M")}`,
      `C: ${sum(values.M, deviation, "C")}`,
    ]);
    slips.show(slip);
    angles.variation.show(variation);
    angles.deviation.show(deviation);
    angles.bearing.show(toNearest(values.T, 1) % 360);
    sentence.textContent = said(slip, out, variation, deviation);
  }

  swings(mark, drawing, [0, 0], () => get("bearing"), change("bearing"));
  const watched = "change:bearing change:variation change:deviation change:convergence change:slip";
  model.on(watched, show);
  root.append(node);
  show();
  return () => model.off(watched, show);
}

/**
 * @param {string} slip @param {number} out @param {number} variation @param {number} deviation
 * @returns {string}
 */
function said(slip, out, variation, deviation) {
  const size = Math.abs(out);
  const side = out < 0 ? say("left") : say("right");
  if (slip === "none") {
    const error = variation + deviation;
    return say("Variation {variation} and deviation {deviation} make a compass error of {error}.", {
      variation: eastWest(variation),
      deviation: eastWest(deviation),
      error: eastWest(error),
    });
  }
  if (size === 0) return say("This angle is zero here: the slip costs nothing, and nobody notices it.");
  if (slip === "forgotten") {
    return say("The boat goes {size}° to the {side} of the mark: once the variation.", { size, side });
  }
  const once = size / 2;
  return size <= 5
    ? say(
        "The boat goes {size}° to the {side}: twice {once}°. So little is hardly noticed, and the habit stays.",
        { size, once, side },
      )
    : say("The boat goes {size}° to the {side} of the mark: not {once}° out, but twice as far.", {
        size,
        once,
        side,
      });
}

export default { render };
