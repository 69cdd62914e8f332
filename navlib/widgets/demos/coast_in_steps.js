// @ts-check
// A coast walked with dividers: the shorter the step, the longer the coast. Beside it a cord.

const UNIT = 0.089; // units of the drawing to a metre
const [MAP_LEFT, MAP_BOTTOM] = [92, 422];
const AXIS = 548;
const LONGEST = 16; // km that the axis shows
const kmAt = scale(30, 600, LONGEST);

/** @param {{model: any, el: HTMLElement}} context */
function render({ model, el: root }) {
  const coast = model.get("coast");
  /** @type {{step: number, steps: number, rest: number, points: Point[]}[]} */
  const walks = coast.walks;
  const every = walks[0].step;
  const [shortest, longest] = [every, walks[walks.length - 1].step];
  const now = () => model.get("step");
  /** @param {number} step */
  const walked = (step) => walks[Math.round(step / every) - 1];
  /** @param {number} step @returns {number} metres */
  const length = (step) => walked(step).steps * step + walked(step).rest;
  /** @param {number} value @param {boolean} done */
  function take(value, done) {
    model.set("step", within(toNearest(value, every), shortest, longest));
    if (done) model.save_changes();
  }
  /** @param {Point} point @returns {Point} */
  const at = ([x, y]) => [MAP_LEFT + x * UNIT, MAP_BOTTOM - y * UNIT];

  const way = draw("g", {});
  const pair = dividersDrawn(60);
  const handle = slider(
    say("The opening of the dividers"),
    shortest,
    longest,
    pair.node,
    draw("circle", { class: "nav-reach", r: 30 }),
    draw("circle", { class: "nav-place", r: 9 }),
  );
  const found = draw("g", {});
  const [start, end] = [at(coast.line[0]), at(coast.line[coast.line.length - 1])];
  const drawing = drawingOf(
    610,
    draw("path", {
      class: "nav-land",
      d: coast.land.map((/** @type {Point[]} */ ring) => `${through(ring.map(at))}Z`).join(""),
    }),
    draw("path", { class: "nav-shore", d: through(coast.line.map(at)) }),
    way,
    label("A", start[0] + 24, start[1] - 4, { class: "nav-strong nav-on-tint" }),
    label("B", end[0] + 22, end[1] - 6, { class: "nav-strong nav-on-paper" }),
    draw("rect", { class: "nav-page", x: -4, y: 440, width: 648, height: 180 }),
    found,
    handle,
  );
  set(drawing, { class: null });

  const by = reading("");
  const cord = reading(say("with a cord along every bend"));
  const sums = el("ul", { class: "nav-sums" });
  const halve = button(say("Halve the step"), () => take(now() / 2, true));
  const double = button(say("Double it"), () => take(now() * 2, true));
  const step = quantityControl(
    say("Step of the dividers"),
    {
      min: shortest,
      max: longest,
      step: every,
      unit: "m",
      say: (metres) => say("{metres} metres", { metres }),
    },
    take,
  );
  const { node, sentence } = demoFrame(
    say("How long is this coast?"),
    say("The shore from A, {a}, to B, {b}, with dividers walked along it, and the length they give", {
      a: coast.a,
      b: coast.b,
    }),
    drawing,
    by.node,
    cord.node,
    sums,
    el("div", { class: "nav-ways" }, halve, double),
    step.node,
  );

  function show() {
    const { step: metres, steps, rest, points } = walked(now());
    const long = length(metres);
    const placed = points.map(at);
    way.replaceChildren(
      draw("path", { class: "nav-strides", d: through(placed) }),
      ...placed.map(([cx, cy]) =>
        draw("circle", { class: "nav-prick", cx, cy, r: metres < 150 ? 2.5 : 5 }),
      ),
    );
    pair.stand(placed[0], placed[1]);
    for (const circle of handle.querySelectorAll(":scope > circle")) {
      set(circle, { cx: placed[1][0], cy: placed[1][1] });
    }
    set(handle, {
      "aria-valuenow": metres,
      "aria-valuetext": say("{metres} metres: the coast is {length} long", {
        metres,
        length: kilometres(long),
      }),
    });
    const before = metres * 2 <= longest ? length(metres * 2) : 0;
    found.replaceChildren(...lengths(long, before, coast.straight, coast.cord));
    by.node.firstChild.textContent = say("in steps of {metres} m", { metres });
    by.value.textContent = kilometres(long);
    cord.value.textContent = kilometres(coast.cord);
    showLines(sums, [
      say("{steps} × {metres} m + {rest} m = {length}", { steps, metres, rest, length: kilometres(long) }),
    ]);
    step.show(metres);
    set(halve, { "aria-disabled": metres === shortest });
    set(double, { "aria-disabled": metres === longest });
    sentence.textContent = before
      ? say("In steps of {double} m it was {before}. Steps half as long find {percent} % more coast.", {
          double: metres * 2,
          before: kilometres(before),
          percent: toNearest((long / before - 1) * 100, 1),
        })
      : say("Long steps jump over the bays, and some cut through the land. Now make them shorter.");
  }

  draggable(
    handle,
    drawing,
    (x, y) => take(Math.hypot(x - start[0], y - start[1]) / UNIT, false),
    () => take(now(), true),
  );
  arrows(handle, (x, y, fine) => take(now() + (x + y) * (fine ? every : 2 * every), true));
  model.on("change:step", show);
  root.append(node);
  show();
  return () => model.off("change:step", show);
}

/**
 * The lengths on an axis of kilometres: what the dividers give, and between which two it lies.
 * @param {number} long metres @param {number} before by steps twice as long, or 0
 * @param {number} straight @param {number} cord
 */
function lengths(long, before, straight, cord) {
  const marks = [];
  for (let km = 0; km <= LONGEST; km++) {
    marks.push(draw("path", { class: "nav-axis", d: `M${kmAt(km)} ${AXIS}v${km % 2 ? 8 : 13}` }));
    if (km % 4 === 0) marks.push(label(km ? `${km} km` : "0", kmAt(km), AXIS + 36));
  }
  const [near, far] = [kmAt(straight / 1000), kmAt(cord / 1000)];
  return [
    draw("rect", {
      class: "nav-bar nav-bar-first",
      x: kmAt(0),
      y: AXIS - 44,
      width: kmAt(long / 1000) - kmAt(0),
      height: 44,
    }),
    draw("path", {
      class: "nav-not-here",
      d: before ? `M${kmAt(before / 1000)} ${AXIS - 44}v44` : "",
    }),
    label(say("dividers {length}", { length: kilometres(long) }), kmAt(0) + 10, AXIS - 14, {
      "text-anchor": "start",
    }),
    draw("path", { class: "nav-now", d: `M${near} ${AXIS - 72}V${AXIS}M${far} ${AXIS - 72}V${AXIS}` }),
    label(say("straight over land {length}", { length: kilometres(straight) }), near - 8, AXIS - 60, {
      "text-anchor": "end",
      class: "nav-fine",
    }),
    label(say("cord {length}", { length: kilometres(cord) }), far - 8, AXIS - 60, {
      "text-anchor": "end",
      class: "nav-fine",
    }),
    draw("path", { class: "nav-axis", d: `M${kmAt(0)} ${AXIS}H${kmAt(LONGEST)}` }),
    ...marks,
  ];
}

export default { render };
