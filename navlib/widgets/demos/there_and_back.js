// @ts-check
// A bearing and its back bearing on one protractor ring.

const QUARTERS = [say("north-east"), say("south-east"), say("south-west"), say("north-west")];
const CARDINALS = [say("due north"), say("due east"), say("due south"), say("due west")];
const RING = 192;
const BAND = RING * 0.78; // where the ring's band of ticks and figures begins
const OUT = 274; // how far B is drawn from A

/** @param {number} degrees @returns {string} which quarter of the ring it lies in */
function quarterWords(degrees) {
  const whole = toNearest(wrap(degrees), 1) % 360;
  if (whole % 90 === 0) return CARDINALS[whole / 90];
  const quarter = Math.floor(whole / 90);
  const to = quarter === 3 ? say("360, which is 000") : figures((quarter + 1) * 90);
  return say("{quarter}: between {from} and {to}", {
    quarter: QUARTERS[quarter],
    from: figures(quarter * 90),
    to,
  });
}

/** @param {number} there @returns {string} the sum that gives the back bearing */
function backSum(there) {
  const whole = toNearest(wrap(there), 1) % 360;
  const sign = whole < 180 ? "+" : "−";
  return `${figures(whole)} ${sign} 180 = ${figures(whole + 180)}`;
}

/** @param {number} quarter @param {number} radius @returns {string} that quarter of a disc */
function wedge(quarter, radius) {
  const [from, to] = [quarter * 90, quarter * 90 + 90].map((at) => along(0, 0, at, radius));
  return `M0 0L${from}A${radius} ${radius} 0 0 1 ${to}Z`;
}

/** @param {{model: any, el: HTMLElement}} context */
function render({ model, el: root }) {
  const get = () => model.get("bearing");
  /** @param {number} value @param {boolean} done */
  const change = (value, done) => {
    model.set("bearing", value);
    if (done) model.save_changes();
  };

  const quarter = draw("path", { class: "nav-quarter" });
  const there = draw(
    "g",
    {},
    draw("line", { class: "nav-back", y2: BAND }),
    draw("line", { class: "nav-sight", y2: -BAND }),
    draw("line", { class: "nav-across", y1: -RING, y2: RING }),
    draw("line", { class: "nav-sight", y1: -RING - 14, y2: -OUT + 16 }),
    draw("path", { class: "nav-pointer-there", d: `M0 ${-RING - 2}l-9 -18h18Z` }),
    draw("path", { class: "nav-pointer-back", d: `M0 ${RING + 2}l-8 17h16Z` }),
  );
  const place = pulled(
    "",
    say("Place B"),
    0,
    359,
    draw("circle", { class: "nav-reach", r: 34 }),
    draw("circle", { class: "nav-place", r: 17 }),
    draw("text", { class: "nav-letter", dy: 8 }, "B"),
  );
  const letters = ["N", "E", "S", "W"].map((letter, n) => {
    const [x, y] = along(0, 0, n * 90, RING - 66);
    return draw("text", { class: "nav-cardinal", x, y: y + 9 }, letter);
  });
  const drawing = draw(
    "svg",
    { viewBox: "-320 -300 640 600" },
    draw("rect", { class: "nav-sea", x: -320, y: -300, width: 640, height: 600 }),
    draw("path", {
      class: "nav-land",
      d: "M-340 -340H-50Q-96 -262 -150 -258T-214 -204Q-262 -196 -268 -140T-340 -96Z",
    }),
    draw("path", {
      class: "nav-land",
      d: "M340 340V92Q284 96 270 140T222 196Q216 240 158 246T96 340Z",
    }),
    draw("path", { class: "nav-land", d: "M-34 22Q-44 -12 -8 -24T36 0Q40 30 4 34T-34 22Z" }),
    quarter,
    ring(RING),
    ...letters,
    there,
    draw("circle", { class: "nav-place", r: 17 }),
    draw("text", { class: "nav-letter", dy: 8 }, "A"),
    place,
  );

  const out = reading(say("From A to B"));
  const home = reading(say("From B back to A"));
  const lies = el("p", { class: "nav-lies" });
  const sums = el("p", { class: "nav-line" });
  const direction = angleControl(say("Bearing from A to B"), { min: 0, max: 359, step: 1 }, change);
  const { node, sentence } = demoFrame(
    say("There and back"),
    say("Two places, the line between them, a protractor ring round A"),
    drawing,
    out.node,
    home.node,
    lies,
    sums,
    direction.node,
  );

  function show() {
    const whole = toNearest(wrap(get()), 1) % 360;
    const north = model.get("north");
    const [x, y] = along(0, 0, whole, OUT);
    set(there, { transform: `rotate(${whole})` });
    set(place, {
      transform: `translate(${x} ${y})`,
      "aria-valuenow": whole,
      "aria-valuetext": bearing(whole, north),
    });
    set(quarter, { d: whole % 90 ? wedge(Math.floor(whole / 90), BAND) : "" });
    out.value.textContent = bearing(whole, north);
    out.more.textContent = say("say “{digits}”", { digits: spoken(whole) });
    home.value.textContent = bearing(whole + 180, north);
    home.more.textContent = say("say “{digits}”", { digits: spoken(whole + 180) });
    lies.textContent = say("B lies {where}.", { where: quarterWords(whole) });
    sums.textContent = backSum(whole);
    direction.show(whole);
    sentence.textContent = say(
      "The line crosses the ring twice: at {there} on the way to B, and straight across at " +
        "{back} on the way back.",
      { there: figures(whole), back: figures(whole + 180) },
    );
  }

  swings(place, drawing, [0, 0], get, change);
  model.on("change:bearing change:north", show);
  root.append(node);
  show();
  return () => model.off("change:bearing change:north", show);
}

export default { render };
