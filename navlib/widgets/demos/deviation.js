// @ts-check
// Deviation belongs to the way the boat points, not to what is looked at.

/** @typedef {[number, number][]} DeviationCard heading and deviation, headings rising */

/**
 * The deviation on a heading, along straight lines between the card's headings, across north too.
 * @param {DeviationCard} card @param {number} heading
 */
function deviationAt(card, heading) {
  const last = card[card.length - 1];
  const round = [[last[0] - 360, last[1]], ...card, [card[0][0] + 360, card[0][1]]];
  const at = wrap(heading);
  const n = round.findIndex(([end]) => end >= at);
  const [[from, before], [to, after]] = [round[Math.max(n - 1, 0)], round[n]];
  return to === from ? after : before + ((after - before) * (at - from)) / (to - from);
}

/** Place on the curve's drawing. @param {number} heading */
const across = (heading) => 70 + (heading / 360) * 540;
/** @param {number} deviation @param {number} most */
const up = (deviation, most) => 135 - (deviation / most) * 95;

const HULL = "M0 -120C34 -84 44 -20 38 60Q36 96 22 108H-22Q-36 96 -38 60C-44 -20 -34 -84 0 -120Z";

/** @param {{model: any, el: HTMLElement}} context */
function render({ model, el: root }) {
  /** @param {string} name @returns {any} */
  const get = (name) => model.get(name);
  /** @param {string} name @returns {(value: number, done: boolean) => void} */
  const change = (name) => (value, done) => {
    model.set(name, value);
    if (done) model.save_changes();
  };

  const needle = draw(
    "g",
    {},
    draw("line", { class: "nav-shaft nav-shaft-C", y1: 50, y2: -176 }),
    draw("path", {
      class: "nav-arrowhead nav-arrowhead-C",
      d: "M-9 24L0 0L9 24Z",
      transform: "translate(0 -178)",
    }),
    badge("C", -198),
  );
  const boat = pulled(
    "",
    say("The boat’s heading"),
    0,
    359,
    draw("path", { class: "nav-hull", d: HULL }),
    draw("path", { class: "nav-bow", d: "M0 -112V-72" }),
  );
  const mark = turnedMark(262);
  const sight = draw("line", { class: "nav-sight", y2: -240 });
  const drawing = draw(
    "svg",
    { viewBox: "-320 -300 640 600" },
    draw("line", { class: "nav-shaft nav-shaft-M", y1: 60, y2: -222 }),
    draw("path", {
      class: "nav-arrowhead nav-arrowhead-M",
      d: "M0 0L11 26L0 20Z",
      transform: "translate(0 -226)",
    }),
    badge("M", -246),
    boat,
    draw("circle", { class: "nav-bowl", r: 42 }),
    sight,
    mark,
    needle,
    draw("circle", { class: "nav-here", r: 5 }),
  );

  const curve = draw("svg", { class: "nav-curve", viewBox: "0 0 640 300", role: "img" });
  const strip = el("div", {
    class: "nav-strip",
    role: "group",
    "aria-label": say("From compass to true"),
  });
  const by = get("by"); // stays as it was made
  const counted =
    by === "C" ? say("Boat’s heading by compass") : say("Boat’s heading by magnetic north");
  const heading = angleControl(counted, { min: 0, max: 359, step: 1 }, change("heading"));
  const marked = angleControl(
    say("The mark’s magnetic bearing"),
    { min: 0, max: 359, step: 1 },
    change("mark"),
  );
  const { node, sentence } = demoFrame(
    say("Deviation goes with the heading"),
    say("A boat, its compass and a mark, from above"),
    drawing,
    strip,
    heading.node,
    marked.node,
    curve,
  );

  function show() {
    const [card, variation] = [get("card"), get("variation")];
    const [way, seen] = [wrap(get("heading")), wrap(get("mark"))];
    const exact = deviationAt(card, way);
    const deviation = toNearest(exact, 1) + 0;
    const compass = wrap(seen - deviation);
    set(boat, {
      transform: `rotate(${by === "C" ? way + exact : way})`,
      "aria-valuenow": toNearest(way, 1) % 360,
      "aria-valuetext": say("{heading}, deviation {deviation}", {
        heading: bearing(way, by),
        deviation: eastWest(deviation),
      }),
    });
    set(needle, { transform: `rotate(${exact})` });
    for (const part of [mark, sight]) set(part, { transform: `rotate(${seen})` });
    set(mark, { "aria-valuenow": toNearest(seen, 1) % 360, "aria-valuetext": bearing(seen, "M") });
    heading.show(toNearest(way, 1) % 360);
    marked.show(toNearest(seen, 1) % 360);
    strip.replaceChildren(
      step(bearing(compass, "C"), say("by compass")),
      join(`+ (${eastWest(deviation)})`, say("deviation")),
      step(bearing(seen, "M"), say("magnetic")),
      join(`+ (${eastWest(variation)})`, say("variation")),
      step(bearing(seen + variation, "T"), say("true")),
    );
    drawCurve(curve, card, way, exact, seen);
    sentence.textContent = say(
      "With the boat on {heading} the deviation is {deviation}, so the mark at {magnetic} reads " +
        "{compass}. Turn the boat and it changes; move the mark and it stays.",
      {
        heading: bearing(way, by),
        deviation: eastWest(deviation),
        magnetic: bearing(seen, "M"),
        compass: bearing(compass, "C"),
      },
    );
  }

  swings(boat, drawing, [0, 0], () => get("heading"), change("heading"));
  swings(mark, drawing, [0, 0], () => get("mark"), change("mark"));
  const watched = "change:card change:heading change:mark change:variation";
  model.on(watched, show);
  root.append(node);
  show();
  return () => model.off(watched, show);
}

/** @param {string} letter @param {number} y */
const badge = (letter, y) =>
  draw(
    "g",
    { class: "nav-badge", transform: `translate(0 ${y})` },
    draw("circle", { r: 17 }),
    draw("text", { dy: 8, "text-anchor": "middle" }, letter),
  );

/** @param {string} value @param {string} name */
const step = (value, name) =>
  el(
    "span",
    { class: "nav-step" },
    el("output", { class: "nav-value" }, value),
    el("small", {}, name),
  );
/** @param {string} angle @param {string} name */
const join = (angle, name) => el("span", { class: "nav-join" }, angle, el("small", {}, name));

/**
 * The card as a curve, the present heading on it, and the mark's bearing that has nothing to say.
 * @param {any} curve @param {DeviationCard} card @param {number} heading
 * @param {number} deviation @param {number} mark
 */
function drawCurve(curve, card, heading, deviation, mark) {
  const most = Math.max(2, ...card.map(([, one]) => Math.ceil(Math.abs(one))));
  const label = (
    /** @type {string} */ words,
    /** @type {number} */ x,
    /** @type {number} */ y,
    anchor = "middle",
  ) => draw("text", { x, y, "text-anchor": anchor }, words);
  const points = [0, ...card.map(([at]) => at), 360].map((at) => [
    across(at),
    up(deviationAt(card, at), most),
  ]);
  set(curve, {
    "aria-label": say("Deviation for each heading; now {deviation} on {heading}", {
      deviation: eastWest(toNearest(deviation, 1) + 0),
      heading: figures(heading),
    }),
  });
  curve.replaceChildren(
    draw("path", { class: "nav-axis", d: `M70 40V230M70 135H610` }),
    label(`${most}° E`, 62, 47, "end"),
    label("0°", 62, 142, "end"),
    label(`${most}° W`, 62, 237, "end"),
    ...[0, 90, 180, 270, 360].flatMap((at) => [
      draw("path", { class: "nav-axis", d: `M${across(at)} 129v12` }),
      label(figures(at), across(at), 262),
    ]),
    label(say("heading"), 340, 292),
    draw("path", { class: "nav-card-line", d: `M${points.join("L")}` }),
    ...card.map(([at, one]) =>
      draw("circle", { class: "nav-card-point", cx: across(at), cy: up(one, most), r: 5 }),
    ),
    draw("path", { class: "nav-not-here", d: `M${across(mark)} 36V236` }),
    label(say("the mark: not here"), Math.min(Math.max(across(mark), 170), 510), 24),
    draw("path", { class: "nav-now", d: `M${across(heading)} 135V${up(deviation, most)}` }),
    draw("circle", { class: "nav-now-point", cx: across(heading), cy: up(deviation, most), r: 9 }),
  );
}

export default { render };
