// @ts-check
// What a forgotten degree costs: how far off the line one ends, by one in sixty and exactly.

const LEG = 8; // miles that are drawn
const MILE = 65; // units of the drawing
const [LEFT, LINE] = [60, 330];
const MOST = 30; // degrees

/** @param {number} run @param {number} degrees @returns {number} off the line, in the run's unit */
const offExactly = (run, degrees) => run * Math.tan((degrees * Math.PI) / 180);
/** @param {number} run @param {number} degrees @returns {number} the same by one in sixty */
const offBySixty = (run, degrees) => (run * degrees) / 60;

/** @param {number} off NM @returns {string} in metres, cables or miles, as one would say it */
function offWords(off) {
  if (off < 0.1) return say("{metres} m", { metres: toNearest(off * 1852, 10) });
  return off < 1
    ? say("{cables} cables", { cables: toNearest(off * 100, 1) / 10 })
    : `${toNearest(off * 100, 1) / 100} NM`;
}

/** @param {{model: any, el: HTMLElement}} context */
function render({ model, el: root }) {
  /** @param {string} name */
  const get = (name) => model.get(name);
  /** @param {string} name @param {number} low @param {number} high
   * @returns {(value: number, done: boolean) => void} */
  const change = (name, low, high) => (value, done) => {
    model.set(name, within(value, low, high));
    if (done) model.save_changes();
  };
  const toRun = change("run", 0.5, LEG);

  const boat = slider(say("The boat"), 0.5, LEG);
  const hull = draw("g", {}, boatFromAbove());
  boat.append(draw("circle", { class: "nav-reach", r: 44 }), hull);
  const way = draw("path", { class: "nav-sight" });
  const gap = draw("path", { class: "nav-now" });
  const gapWords = label("", 0, 0, { class: "nav-strong nav-warm nav-on-paper" });
  const wedge = draw("path", { class: "nav-quarter" });
  const drawing = drawingOf(
    420,
    draw("g", { transform: `translate(${LEFT} ${LINE}) rotate(90)` }, wedge),
    draw("g", { transform: `translate(0 ${LINE})` }, mileMarks(), ...rays()),
    way,
    gap,
    boat,
    gapWords,
    draw("circle", { class: "nav-here", cx: LEFT, cy: LINE, r: 8 }),
    label(say("your line, in miles"), 620, LINE + 66, { "text-anchor": "end" }),
  );

  const rule = reading(say("by one in sixty"));
  const exact = reading(say("measured exactly"));
  const sums = el("ul", { class: "nav-sums" });
  const degrees = angleControl(
    say("Degrees forgotten"),
    { min: 1, max: MOST, step: 0.5 },
    change("degrees", 1, MOST),
  );
  const run = quantityControl(
    say("Run"),
    { min: 0.5, max: LEG, step: 0.5, unit: "NM", say: miles },
    toRun,
  );
  const { node, sentence } = demoFrame(
    say("What a forgotten degree costs"),
    say("A line of miles, and the boat that leaves it at an angle"),
    drawing,
    rule.node,
    exact.node,
    sums,
    degrees.node,
    run.node,
  );

  function show() {
    const [angle, there] = [get("degrees"), get("run")];
    const off = offExactly(there, angle);
    const [x, y] = [LEFT + there * MILE, LINE - off * MILE];
    set(wedge, { d: wedgePath(there * MILE, 0, -angle) });
    set(way, { d: `M${LEFT} ${LINE}L${x} ${y}` });
    set(gap, { d: `M${x} ${LINE}V${y}` });
    set(hull, { transform: `rotate(${-angle}) scale(.8)` });
    set(boat, {
      transform: `translate(${x} ${y})`,
      "aria-valuenow": tenths(there),
      "aria-valuetext": say("{run} gone, {off} off the line", { run: miles(there), off: offWords(off) }),
    });
    gapWords.textContent = offWords(off);
    const tall = LINE - y > 100; // there is room beside the gap
    set(gapWords, {
      x: tall ? x - 14 : within(x, 90, 550),
      y: tall ? (LINE + y) / 2 + 30 : y - 44,
      "text-anchor": tall ? "end" : "middle",
    });
    rule.value.textContent = offWords(offBySixty(there, angle));
    exact.value.textContent = offWords(off);
    showLines(sums, [
      `${tenths(there)} NM × ${angle}° ÷ 60 = ${toNearest(offBySixty(there, angle) * 100, 1) / 100} NM`,
      say("One degree, after one mile: 1 ÷ 60 NM, about 30 m"),
    ]);
    degrees.show(angle);
    run.show(there);
    sentence.textContent = said(there, angle);
  }

  slides(boat, drawing, { from: (x) => x / MILE, now: () => get("run"), step: 0.5, fine: 0.1 }, toRun);
  model.on("change:degrees change:run", show);
  root.append(node);
  show();
  return () => model.off("change:degrees change:run", show);
}

/** The line with a mark at each mile. */
function mileMarks() {
  const parts = [draw("path", { class: "nav-way", d: `M${LEFT} 0H${LEFT + LEG * MILE}` })];
  for (let mile = 0; mile <= LEG; mile++) {
    const x = LEFT + mile * MILE;
    parts.push(draw("path", { class: "nav-axis", d: `M${x} -9v18` }), label(String(mile), x, 36));
  }
  return draw("g", {}, ...parts);
}

/** Where the boat ends up by other angles, to compare. @returns {any[]} */
function rays() {
  const x = LEFT + LEG * MILE;
  return [10, 20, 30].flatMap((degrees) => {
    const y = -offExactly(LEG * MILE, degrees);
    return [
      draw("path", { class: "nav-not-here", d: `M${LEFT} 0L${x} ${y}` }),
      label(`${degrees}°`, x + 8, y + 8, { class: "nav-quiet", "text-anchor": "start" }),
    ];
  });
}

/** @param {number} run @param {number} degrees @returns {string} */
function said(run, degrees) {
  const off = offExactly(run, degrees);
  if (off < 0.06) return say("Near the start nobody notices. The way off grows with each mile.");
  return say(
    "After {run} you are {off} off your line. After twice the way it is twice as much, and in the boat you feel nothing.",
    { run: miles(run), off: offWords(off) },
  );
}

export default { render };
