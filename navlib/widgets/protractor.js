// @ts-check
// A round protractor laid on a sheet: ring of 360°, north line, an arm that swings.

/** Where it lies. Positions in mm of sheet, angles in degrees clockwise.
 * @typedef {{x: number, y: number, turn: number, arm: number}} Lie
 * `turn` is the ring's 000 against the sheet's up, `arm` the arm's reading on the ring. */

/** @typedef {{width: number, height: number}} Size */

/** @param {Size} sheet @returns {number} radius of the ring, mm: about a hand's protractor */
const ringRadius = (sheet) => Math.min(35, 0.43 * Math.min(sheet.width, sheet.height));

/** @param {Size} sheet @returns {Lie} at rest in the lower right corner, its arm at 000 */
function atRest(sheet) {
  const inset = 0.45 * ringRadius(sheet);
  return { x: sheet.width - inset, y: sheet.height - inset, turn: 0, arm: 0 };
}

/** @param {Lie} lie @param {number} x @param {number} y @param {Size} sheet @returns {Lie} */
const movedTo = (lie, x, y, sheet) => ({
  ...lie,
  x: Math.min(Math.max(x, 0), sheet.width),
  y: Math.min(Math.max(y, 0), sheet.height),
});

/** @param {Lie} lie @param {number} by @returns {Lie} the ring turned, its arm with it */
const turnedBy = (lie, by) => ({ ...lie, turn: wrap(lie.turn + by) });

/** @param {Lie} lie @param {number} by @returns {Lie} the arm swung */
const swungBy = (lie, by) => ({ ...lie, arm: wrap(lie.arm + by) });

/** @param {Lie} lie @param {number} x @param {number} y @returns {Lie} the arm through a point */
const swungTo = (lie, x, y) => ({ ...lie, arm: wrap(towards(lie.x, lie.y, x, y) - lie.turn) });

/**
 * How far out along the arm its knob stands: at `wanted`, or nearer so that it is on the sheet.
 * @param {Lie} lie @param {number} wanted @param {Size} sheet
 */
function knobDistance(lie, wanted, sheet) {
  const [dx, dy] = along(0, 0, lie.turn + lie.arm, 1);
  const room = (/** @type {number} */ at, /** @type {number} */ way, /** @type {number} */ end) =>
    way > 1e-9 ? (end - at) / way : way < -1e-9 ? at / -way : Infinity;
  const edge = Math.min(room(lie.x, dx, sheet.width), room(lie.y, dy, sheet.height));
  return Math.max(Math.min(wanted, edge - 4), 7);
}

/**
 * The path of ticks on a ring, every `step` degrees except at multiples of `but`.
 * @param {number} step @param {number} but @param {number} inner @param {number} outer
 */
function ticks(step, but, inner, outer) {
  let path = "";
  for (let degrees = 0; degrees < 360; degrees += step) {
    if (but && degrees % but === 0) continue;
    const from = along(0, 0, degrees, inner).map((n) => n.toFixed(3));
    const to = along(0, 0, degrees, outer).map((n) => n.toFixed(3));
    path += `M${from}L${to}`;
  }
  return path;
}

/**
 * The ring, centred on (0, 0): ticks each degree, figures each ten.
 * @param {number} radius
 * @returns {any}
 */
function ring(radius) {
  const size = radius * 0.067;
  const ringNode = draw(
    "g",
    { class: "nav-ring", "font-size": size, "stroke-width": radius * 0.006 },
    draw("circle", { class: "nav-ring-band", r: radius * 0.89, "stroke-width": radius * 0.22 }),
    draw("circle", { class: "nav-ring-line", r: radius }),
    draw("circle", { class: "nav-ring-line", r: radius * 0.78 }),
    draw("path", { class: "nav-ring-line", d: ticks(1, 5, radius * 0.955, radius) }),
    draw("path", { class: "nav-ring-line", d: ticks(5, 10, radius * 0.93, radius) }),
    draw("path", {
      class: "nav-ring-line",
      "stroke-width": radius * 0.009,
      d: ticks(10, 0, radius * 0.905, radius),
    }),
  );
  for (let degrees = 0; degrees < 360; degrees += 10) {
    const text = draw("text", {
      transform: `rotate(${degrees}) translate(0 ${-radius * 0.83})`,
      "text-anchor": "middle",
      class: degrees % 90 === 0 ? "nav-ring-quarter" : null,
    });
    text.textContent = figures(degrees);
    ringNode.append(text);
  }
  return ringNode;
}

/**
 * A protractor that the learner moves, turns and swings.
 * @param {Size} sheet
 * @returns {{node: SVGSVGElement, rest: () => void}}
 */
function protractor(sheet) {
  const radius = ringRadius(sheet);
  const reach = 2 * Math.hypot(sheet.width, sheet.height);
  let lie = atRest(sheet);

  const handle = (
    /** @type {string} */ name,
    /** @type {Settings} */ more,
    /** @type {any[]} */ ...inside
  ) => draw("g", { class: "nav-handle", tabindex: 0, "aria-label": name, ...more }, ...inside);
  const slider = { role: "slider", "aria-valuemin": 0, "aria-valuemax": 359 };

  const lines = [-20, -10, 10, 20]
    .filter((x) => Math.abs(x) < radius * 0.7)
    .map((x) => {
      const half = Math.sqrt((radius * 0.78) ** 2 - x * x);
      return `M${x} ${-half}V${half}`;
    });
  const face = draw(
    "g",
    {},
    draw("path", { class: "nav-lay-lines", d: lines.join("") }),
    draw("path", {
      class: "nav-north-line",
      d: `M0 ${radius * 0.78}V${-radius - 5}m-1.6 3l1.6 -3l1.6 3`,
    }),
    draw("text", { class: "nav-north", x: 1.8, y: -radius - 1.6, "font-size": 4 }, "N"),
  );
  const grips = [45, 135, 225, 315].map((at) => {
    const [x, y] = along(0, 0, at, radius + 2.4);
    return draw(
      "g",
      { transform: `translate(${x} ${y}) rotate(${at})` },
      draw("rect", { class: "nav-grip", x: -4, y: -1.7, width: 8, height: 3.4, rx: 1.7 }),
      draw("path", { class: "nav-grip-mark", d: "M-1.5 -.8V.8M0 -.8V.8M1.5 -.8V.8" }),
    );
  });
  const band = ring(radius);
  const turnHandle = handle("Turn the protractor", slider, ...grips);
  const moveHandle = handle(
    "Middle of the protractor: move it",
    { role: "group", "aria-roledescription": "movable point" },
    draw("circle", { class: "nav-hub-hit", r: 5 }),
    draw("circle", { class: "nav-hub", r: 2.2 }),
    draw("path", { class: "nav-hub-cross", d: "M-4 0H-.7M.7 0H4M0 -4V-.7M0 .7V4" }),
  );
  const knob = draw("circle", { class: "nav-knob", r: 2.6 });
  const arm = draw(
    "g",
    {},
    draw("line", { class: "nav-arm-hit", y1: -7, y2: -reach }),
    draw("line", { class: "nav-arm-edge", y1: -2.2, y2: -reach }),
    draw("line", { class: "nav-arm", y1: -2.2, y2: -reach }),
    knob,
  );
  const armHandle = handle("Swing the arm", slider, arm);
  const turned = draw("g", {}, face, band, turnHandle, armHandle);
  const whole = draw("g", { class: "nav-protractor" }, turned, moveHandle);
  const node = draw(
    "svg",
    {
      class: "nav-overlay",
      viewBox: `0 0 ${sheet.width} ${sheet.height}`,
      role: "group",
      "aria-label": "Protractor on the sheet",
    },
    whole,
  );

  const show = () => {
    whole.setAttribute("transform", `translate(${lie.x} ${lie.y})`);
    turned.setAttribute("transform", `rotate(${lie.turn})`);
    arm.setAttribute("transform", `rotate(${lie.arm})`);
    knob.setAttribute("cy", String(-knobDistance(lie, radius + 8, sheet)));
    turnHandle.setAttribute("aria-valuenow", String(Math.round(lie.turn) % 360));
    armHandle.setAttribute("aria-valuenow", String(Math.round(lie.arm) % 360));
  };
  /** @param {Lie} next */
  const lay = (next) => {
    lie = next;
    show();
  };

  let begun = lie;
  const begin = () => {
    begun = lie;
  };
  for (const part of [moveHandle, band.querySelector(".nav-ring-band")]) {
    draggable(
      part,
      node,
      (x, y, fromX, fromY) => lay(movedTo(begun, begun.x + x - fromX, begun.y + y - fromY, sheet)),
      () => {},
      begin,
    );
  }
  draggable(
    turnHandle,
    node,
    (x, y, fromX, fromY) =>
      lay(turnedBy(begun, towards(lie.x, lie.y, x, y) - towards(lie.x, lie.y, fromX, fromY))),
    () => {},
    begin,
  );
  draggable(armHandle, node, (x, y) => lay(swungTo(lie, x, y)));
  arrows(moveHandle, (x, y, fine) => {
    const step = fine ? 0.1 : 1;
    lay(movedTo(lie, lie.x + x * step, lie.y - y * step, sheet));
  });
  arrows(turnHandle, (x, y, fine) => lay(turnedBy(lie, (x + y) * (fine ? 0.1 : 1))));
  arrows(armHandle, (x, y, fine) => lay(swungBy(lie, (x + y) * (fine ? 0.1 : 1))));
  show();
  return { node, rest: () => lay(atRest(sheet)) };
}
