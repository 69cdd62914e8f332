// @ts-check
// A round protractor laid on a sheet: ring of 360°, north line, an arm that swings.

/** Where it lies. Positions in mm of sheet, angles in degrees clockwise.
 * @typedef {{x: number, y: number, turn: number, arm: number}} ProtractorLie
 * `turn` is the ring's 000 against the sheet's up, `arm` the arm's reading on the ring. */

/** @param {Size} sheet @returns {number} radius of the ring, mm: about a hand's protractor */
const ringRadius = (sheet) => Math.min(35, 0.43 * Math.min(sheet.width, sheet.height));

/** How far beyond the ring the arm's knob stands, mm: there it leaves the N to be seen. */
const KNOB_OUT_MM = 12;

/** What differs from one round protractor to another: `reads` is how fine an eye reads it, degrees.
 * @typedef {{style: string, name: string, radius: (sheet: Size) => number, reads: number, how: string,
 *   ring: (radius: number) => any, spoken: (said: Record<string, string>) => string}} Round */

/** @param {Top} top @returns {Instrument} */
const protractor = (top) =>
  roundProtractor(top, {
    style: "nav-stiff",
    name: say("Protractor"),
    radius: ringRadius,
    reads: 1,
    ring: (radius) => ring(radius),
    spoken: (said) =>
      say("Protractor: middle {spot}, N turned to {turn}, the arm at {arm} on the ring.", said),
    how: say(
      "Drag the middle onto the point, lay N along the sheet’s north, swing the arm, and read the ring where the arm crosses it.",
    ),
  });

/**
 * A round protractor that the learner moves, turns and swings.
 * @param {Top} top @param {Round} sort
 * @returns {Instrument}
 */
function roundProtractor(top, sort) {
  const { size } = top;
  const radius = sort.radius(size);
  const reach = 2 * Math.hypot(size.width, size.height);
  const inset = 0.45 * radius;
  /** @type {ProtractorLie} */
  let lie = { x: size.width - inset, y: size.height - inset, turn: 0, arm: 0 };
  let begun = lie;
  const begin = () => {
    begun = lie;
  };

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
    const grip = draw("g", {}, gripMark());
    placeAt(grip, ...along(0, 0, at, radius + 2.4), at);
    return grip;
  });
  const band = sort.ring(radius);
  /** @returns {Spot} */
  const hub = () => [lie.x, lie.y];
  /** @param {Spot} spot */
  const moveTo = (spot) => {
    const [x, y] = onSheet(spot, size);
    lay({ ...lie, x, y });
  };
  const turnHandle = turnPart(
    top,
    say("Turn the protractor"),
    hub,
    (by) => lay({ ...lie, turn: wrap(begun.turn + by) }),
    begin,
    ...grips,
  );
  const moveHandle = pointPart(
    top,
    say("Middle of the protractor: move it"),
    hub,
    moveTo,
    {},
    hubMark(),
  );
  draggable(
    band.querySelector(".nav-ring-band"),
    top.space,
    (x, y, fromX, fromY) => moveTo([begun.x + x - fromX, begun.y + y - fromY]),
    () => top.moved(),
    begin,
  );
  const knob = draw("g", {}, knobMark());
  const arm = draw(
    "g",
    {},
    draw("line", { class: "nav-arm-hit", y1: -7, y2: -reach }),
    draw("line", { class: "nav-arm-edge", y1: -2.2, y2: -reach }),
    draw("line", { class: "nav-arm", y1: -2.2, y2: -reach }),
    knob,
  );
  const armHandle = part(
    top,
    say("Swing the arm"),
    {
      drag: (x, y) => lay({ ...lie, arm: wrap(towards(lie.x, lie.y, x, y) - lie.turn) }),
      keys: (x, y, small) => lay({ ...lie, arm: wrap(lie.arm + (x + y) * stride(small)) }),
    },
    { role: "slider", "aria-valuemin": 0, "aria-valuemax": 359 },
    arm,
  );
  const turned = draw("g", {}, face, band, turnHandle, armHandle);
  const node = draw(
    "g",
    { class: `nav-protractor ${sort.style}`, role: "group", "aria-label": sort.name },
    turned,
    moveHandle,
  );

  function show() {
    node.setAttribute("transform", `translate(${lie.x} ${lie.y})`);
    turned.setAttribute("transform", `rotate(${lie.turn})`);
    arm.setAttribute("transform", `rotate(${lie.arm})`);
    placeAt(knob, 0, -knobDistance(hub(), lie.turn + lie.arm, radius + KNOB_OUT_MM, top.seen()));
    setValue(turnHandle, toNearest(lie.turn, sort.reads));
    setValue(armHandle, toNearest(lie.arm, sort.reads));
  }

  /** @param {ProtractorLie} next */
  function lay(next) {
    lie = next;
    show();
  }

  show();
  return {
    node,
    lie: () => ({ x: fine(lie.x), y: fine(lie.y), turn: fine(lie.turn), arm: fine(lie.arm) }),
    lay,
    seen: show,
    edges: () => [[along(lie.x, lie.y, lie.turn + lie.arm, 2), along(lie.x, lie.y, lie.turn + lie.arm, reach)]],
    spoken: () =>
      sort.spoken({
        spot: spokenSpot(hub()),
        turn: figures(toNearest(lie.turn, sort.reads)),
        arm: figures(toNearest(lie.arm, sort.reads)),
      }),
    how: sort.how,
  };
}
