// @ts-check
// Three norths and one direction: the same line counted from each of them.

/** The angle at which each north stands, and how far out its letter is.
 * @param {number} variation @param {number} convergence @param {number} times drawn larger */
const northsDrawn = (variation, convergence, times) => [
  { north: "T", angle: 0, length: 262, arc: 165 },
  { north: "G", angle: convergence * times, length: 226, arc: 118 },
  { north: "M", angle: variation * times, length: 190, arc: 70 },
];

/**
 * The three bearings of a line.
 * @param {number} bearingTrue @param {number} variation @param {number} convergence
 * @returns {Record<string, number>}
 */
const threeBearings = (bearingTrue, variation, convergence) => ({
  T: wrap(bearingTrue),
  G: wrap(bearingTrue - convergence),
  M: wrap(bearingTrue - variation),
});

/** @type {Record<string, string>} */
const NAMES = {
  T: say("from true north"),
  G: say("from grid north"),
  M: say("from magnetic north"),
};

/** @param {{model: any, el: HTMLElement}} context */
function render({ model, el: root }) {
  /** @param {string} name */
  const get = (name) => model.get(name);
  /** @param {string} name @returns {(value: number, done: boolean) => void} */
  const change = (name) => (value, done) => {
    model.set(name, value);
    if (done) model.save_changes();
  };

  const arrowsDrawn = Object.keys(NAMES).map((north) => {
    const { node, aim } = northArrow(north);
    const arc = draw("path", { class: `nav-arc nav-shaft-${north}` });
    const tip = draw("path", { class: "nav-arc-tip", d: "M0 0L-16 -6V6Z" });
    const letter = draw("text", { class: "nav-arc-letter", dy: 8 }, north);
    return { arc, tip, letter, node, aim };
  });
  const line = draw("line", { class: "nav-sight", y2: -250 });
  const mark = turnedMark(268);
  const drawing = draw(
    "svg",
    { viewBox: "-320 -300 640 600" },
    ...arrowsDrawn.flatMap(({ arc, tip, letter }) => [arc, tip, letter]),
    line,
    mark,
    ...arrowsDrawn.map(({ node }) => node),
    draw("circle", { class: "nav-here", r: 6 }),
  );

  const variation = angleControl(
    say("Variation"),
    { min: -30, max: 30, step: 0.5, east: true },
    change("variation"),
  );
  const convergence = angleControl(
    say("Convergence of the grid"),
    { min: -6, max: 6, step: 0.5, east: true },
    change("convergence"),
  );
  const direction = angleControl(
    say("True bearing of the mark"),
    { min: 0, max: 359, step: 1 },
    change("bearing"),
  );
  const larger = button("", () => {
    model.set("times", get("times") === 3 ? 1 : 3);
    model.save_changes();
  });
  const readings = Object.entries(NAMES).map(([north, name]) => {
    const one = reading(name);
    one.node.prepend(arrowSample(north));
    return one;
  });
  const sums = el("ul", { class: "nav-sums" });
  const times = el("p", { class: "nav-small" });
  const { node, sentence } = demoFrame(
    say("Three norths, one direction"),
    say("Three north arrows and the line to a mark"),
    drawing,
    ...readings.map((one) => one.node),
    sums,
    variation.node,
    convergence.node,
    direction.node,
  );
  drawing.after(el("div", { class: "nav-under" }, larger, times));

  function show() {
    const values = threeBearings(get("bearing"), get("variation"), get("convergence"));
    const drawn = northsDrawn(get("variation"), get("convergence"), get("times"));
    for (const [n, { north, angle, length, arc }] of drawn.entries()) {
      const part = arrowsDrawn[n];
      part.aim(angle, length);
      const sweep = wrap(values.T - angle);
      set(part.arc, { d: arcPath(arc, angle, values.T) });
      set(part.tip, { transform: `translate(${along(0, 0, values.T, arc)}) rotate(${values.T})` });
      const [letterX, letterY] = along(0, 0, angle + sweep / 2, arc);
      set(part.letter, { x: letterX, y: letterY });
      readings[n].value.textContent = bearing(values[north], north);
    }
    set(line, { transform: `rotate(${values.T})` });
    set(mark, {
      transform: `rotate(${values.T})`,
      "aria-valuenow": toNearest(values.T, 1) % 360,
      "aria-valuetext": bearing(values.T, "T"),
    });
    variation.show(get("variation"));
    convergence.show(get("convergence"));
    direction.show(toNearest(values.T, 1) % 360);
    const large = get("times") === 3;
    larger.textContent = large ? say("Draw them as they are") : say("Draw them 3 times as far apart");
    times.textContent = large
      ? say("The norths are drawn 3 times as far apart as they are; the numbers are right.")
      : say("The norths are drawn as far apart as they are.");
    sums.replaceChildren(
      el("li", {}, say("G = T − convergence"), el("br"), `= ${sum(values.T, get("convergence"), "G")}`),
      el("li", {}, say("M = T − variation"), el("br"), `= ${sum(values.T, get("variation"), "M")}`),
    );
    sentence.textContent = words(values, get("variation"));
  }

  swings(mark, drawing, [0, 0], () => get("bearing"), change("bearing"));
  model.on("change:variation change:convergence change:bearing change:times", show);
  root.append(node);
  show();
  return () => model.off("change:variation change:convergence change:bearing change:times", show);
}

/** @param {Record<string, number>} values @param {number} variation @returns {string} */
function words(values, variation) {
  if (variation === 0) return say("There is no variation here: the compass reads what the chart says.");
  const put = {
    angle: `${Math.abs(variation)}°`,
    magnetic: bearing(values.M, "M"),
    true: bearing(values.T, "T"),
  };
  return variation < 0
    ? say(
        "Magnetic north lies {angle} west of true north, so the compass reads {angle} more than " +
          "the chart: {magnetic} where the chart says {true}.",
        put,
      )
    : say(
        "Magnetic north lies {angle} east of true north, so the compass reads {angle} less than " +
          "the chart: {magnetic} where the chart says {true}.",
        put,
      );
}

export default { render };
