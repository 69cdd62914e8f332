// @ts-check
// Two boats in two places check their compasses: what is out shows what is to blame.

const STEP = 5; // degrees of heading from one set of checks to the next
const HULL = "M0 -88C25 -62 32 -15 28 44Q26 70 16 79H-16Q-26 70 -28 44C-32 -15 -25 -62 0 -88Z";
const CELLS = [
  { x: 200, y: 190, boat: "A" },
  { x: 200, y: 448, boat: "B" },
  { x: 510, y: 190, boat: "A" },
  { x: 510, y: 448, boat: "B" },
];

/** @param {{model: any, el: HTMLElement}} context */
function render({ model, el: root }) {
  /** @param {string} name */
  const get = (name) => model.get(name);
  /** @param {number} value @param {boolean} done */
  function turn(value, done) {
    model.set("heading", wrap(toNearest(value, STEP)));
    if (done) model.save_changes();
  }
  const checks = get("checks"); // stay as they were made

  const boats = CELLS.map(({ x, y, boat }) => {
    const needle = northArrow("C");
    const magnetic = northArrow("M");
    magnetic.aim(0, 134);
    const hull = draw("path", { class: "nav-hull", d: HULL });
    const iron = draw("rect", { class: "nav-dot", x: -11, y: 46, width: 22, height: 18 });
    const turned = draw("g", {}, hull, draw("path", { class: "nav-bow", d: "M0 -82V-52" }), iron);
    const name = label(say("Boat {boat}", { boat }), -180, -92, { "text-anchor": "start" });
    const words = label("", -180, -58, { "text-anchor": "start", class: "nav-strong nav-warm" });
    const node = draw(
      "g",
      { class: "nav-turns", tabindex: -1, transform: `translate(${x} ${y})` },
      turned,
      draw("circle", { class: "nav-bowl", r: 24 }),
      magnetic.node,
      needle.node,
      draw("circle", { class: "nav-here", r: 5 }),
      name,
      words,
    );
    return { boat, node, turned, iron, needle, words };
  });
  const handle = boats[0].node; // for the keyboard; the pointer turns any boat
  set(handle, {
    tabindex: 0,
    role: "slider",
    "aria-label": say("The boats’ heading"),
    "aria-valuemin": 0,
    "aria-valuemax": 359,
  });
  const drawing = drawingOf(
    560,
    draw("path", { class: "nav-land", d: "M0 222Q34 214 52 238T36 290Q20 306 0 302Z" }),
    draw("path", { class: "nav-land", d: "M640 286Q606 300 610 330T598 384Q604 412 640 410Z" }),
    draw("path", { class: "nav-axis", d: "M320 0V560" }),
    ...boats.map(({ node }) => node),
    label(say("off the reef"), 20, 36, { class: "nav-strong", "text-anchor": "start" }),
    label(say("off the head"), 330, 36, { class: "nav-strong", "text-anchor": "start" }),
  );

  const causes = oneOf(
    say("The cause"),
    [
      ["variation", say("Old variation")],
      ["deviation", say("Iron in boat A")],
      ["rock", say("Rock under the reef")],
      ["scatter", say("Only the hand")],
    ],
    (cause) => {
      model.set("cause", cause);
      model.save_changes();
    },
  );
  const table = el("table", {});
  const heading = angleControl(say("Heading of both boats"), { min: 0, max: 355, step: STEP }, turn);
  const { node, sentence } = demoFrame(
    say("What is to blame?"),
    say("Two boats, each in two places, with the needles of their compasses"),
    drawing,
    causes.node,
    el("div", { class: "nav-table" }, table),
    heading.node,
    el(
      "p",
      { class: "nav-small" },
      say("M is where the chart has magnetic north, C is where the needle points. The angle between them is drawn as it is."),
    ),
  );

  function show() {
    const [cause, way] = [get("cause"), wrap(toNearest(get("heading"), STEP))];
    /** @type {number[]} */
    const out = checks[cause][way / STEP];
    for (const [n, part] of boats.entries()) {
      set(part.turned, { transform: `rotate(${way})` });
      part.needle.aim(out[n], 70);
      part.iron.style.display = cause === "deviation" && part.boat === "A" ? "" : "none";
      part.words.textContent = eastWest(out[n]);
    }
    set(handle, {
      "aria-valuenow": way,
      "aria-valuetext": say("{way}, boat A off the reef is out {out}", {
        way: bearing(way, "M"),
        out: eastWest(out[0]),
      }),
    });
    causes.show(cause);
    heading.show(way);
    table.replaceChildren(
      el("caption", {}, say("How far each compass is out, heading {way}", { way: bearing(way, "M") })),
      row("th", "", say("Boat A"), say("Boat B")),
      row("td", say("off the reef"), eastWest(out[0]), eastWest(out[1])),
      row("td", say("off the head"), eastWest(out[2]), eastWest(out[3])),
    );
    sentence.textContent = said(cause);
  }

  for (const [n, { x, y }] of CELLS.entries()) {
    swings(boats[n].node, drawing, [x, y], () => get("heading"), turn);
  }
  model.on("change:cause change:heading", show);
  root.append(node);
  show();
  return () => model.off("change:cause change:heading", show);
}

/** @param {string} tag of the values @param {string} name @param {...string} values */
const row = (tag, name, ...values) =>
  el("tr", {}, el("th", {}, name), ...values.map((one) => el(tag, {}, one)));

/** @param {string} cause @returns {string} what goes with what */
function said(cause) {
  if (cause === "variation") {
    return say("The error goes with nothing: every boat, every heading and every place has the same.");
  }
  if (cause === "deviation") {
    return say("The error goes with one boat and changes as the boat turns, for the iron turns with it. Boat B has none.");
  }
  if (cause === "rock") {
    return say("The error goes with the place: both boats have it off the reef, on every heading, and neither off the head.");
  }
  return say("A degree or two, now to one side and now to the other: so much a hand always scatters.");
}

export default { render };
