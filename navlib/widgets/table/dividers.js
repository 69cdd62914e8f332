// @ts-check
// Dividers: two points that are opened, carried with their opening, and stepped.

/** Where they stand: both points in mm of sheet, and the steps walked since they were set down.
 * @typedef {{x1: number, y1: number, x2: number, y2: number, steps: number}} DividersLie */

const LEG_MM = 60;
const WIDEST_MM = 100;
const CLOSED_MM = 1;

/**
 * @param {Top} top
 * @returns {Instrument}
 */
function dividers(top) {
  const { size } = top;
  /** @type {Spot} */
  let a = [0, 0];
  /** @type {Spot} */
  let b = [0, 0];
  let steps = 0;
  /** On which side of the line from point 1 to point 2 the head is held: 1 or -1. */
  let side = 1;
  let begun = { a, b };
  const begin = () => {
    begun = { a, b };
  };

  const legs = [0, 1].map((n) => draw("path", { class: "nav-leg", "data-leg": n }));
  const tips = [0, 1].map(() => draw("path", { class: "nav-tip" }));
  const counter = el("span", { class: "nav-count" });

  /**
   * Put one point somewhere: the dividers open or close. Wider than they go, the other one follows.
   * @param {Spot} spot @param {Spot} other @returns {[Spot, Spot]} where both are then
   */
  function opened(spot, other) {
    const to = onSheet(spot, size);
    const out = span(to, other) > 1e-6 ? towards(...to, ...other) : 0;
    const open = within(span(to, other), CLOSED_MM, WIDEST_MM);
    return [to, along(...to, out, open)];
  }

  const pointOne = pointPart(
    top,
    say("Point 1 of the dividers: open or close"),
    () => a,
    (spot) => {
      steps = 0;
      [a, b] = opened(spot, b);
      show();
    },
    {},
    knobMark("1"),
  );
  const pointTwo = pointPart(
    top,
    say("Point 2 of the dividers: open or close"),
    () => b,
    (spot) => {
      steps = 0;
      [b, a] = opened(spot, a);
      show();
    },
    {},
    knobMark("2"),
  );
  const swingOne = turnPart(
    top,
    say("Swing point 1 about point 2, the opening kept"),
    () => b,
    (by) => {
      a = ifOnSheet(swung(begun.a, begun.b, by), a);
      show();
    },
    begin,
    legs[0],
  );
  const swingTwo = turnPart(
    top,
    say("Swing point 2 about point 1, the opening kept"),
    () => a,
    (by) => {
      b = ifOnSheet(swung(begun.b, begun.a, by), b);
      show();
    },
    begin,
    legs[1],
  );
  const head = pointPart(
    top,
    say("Head of the dividers: carry them, the opening kept. Enter: a step on; Shift and Enter: a step back"),
    () => a,
    (spot) => {
      const far = /** @type {Spot} */ ([b[0] - a[0], b[1] - a[1]]);
      // Both points stay on the sheet.
      const x = within(spot[0], Math.max(0, -far[0]), size.width - Math.max(0, far[0]));
      const y = within(spot[1], Math.max(0, -far[1]), size.height - Math.max(0, far[1]));
      a = [x, y];
      b = [x + far[0], y + far[1]];
      steps = 0;
      show();
    },
    {},
    inPixels(
      hit(22),
      draw("circle", { class: "nav-head", r: 15 }),
      draw("circle", { class: "nav-hub", r: 5 }),
    ),
  );
  pressable(head, (back) => step(back ? -1 : 1));

  /** @param {Spot} spot @param {Spot} before @returns {Spot} where a point may go, or stays */
  const ifOnSheet = (spot, before) => (span(spot, onSheet(spot, size)) < 1e-9 ? spot : before);

  /** @param {Spot} spot @param {Spot} pivot @param {number} by @returns {Spot} */
  function swung(spot, pivot, by) {
    return along(...pivot, towards(...pivot, ...spot) + by, span(pivot, spot));
  }

  /**
   * Walk: the hind point swings over the fore one, half a turn, the opening kept.
   * @param {1 | -1} way
   */
  function step(way) {
    /** @type {(p: Spot, q: Spot) => Spot} */
    const over = (p, q) => [2 * q[0] - p[0], 2 * q[1] - p[1]];
    const next = way > 0 ? over(a, b) : over(b, a);
    if (ifOnSheet(next, a) !== next) return;
    if (way > 0) [a, b] = [b, next];
    else [a, b] = [next, a];
    steps += way;
    side = -side;
    show();
    top.moved(true);
  }

  const node = draw(
    "g",
    { class: "nav-dividers", role: "group", "aria-label": say("Dividers") },
    ...tips,
    swingOne,
    swingTwo,
    head,
    pointOne,
    pointTwo,
  );

  /** Where the head is seen: the dividers stand leaning over the sheet. @returns {Spot} */
  function headAt() {
    const half = span(a, b) / 2;
    const rise = 0.72 * Math.sqrt(Math.max(LEG_MM ** 2 - half ** 2, 400));
    /** @param {number} which @returns {Spot} */
    const at = (which) => along((a[0] + b[0]) / 2, (a[1] + b[1]) / 2, towards(...a, ...b) - 90 * which, rise);
    const seen = top.seen();
    /** @param {Spot} spot */
    const inSight = ([x, y]) =>
      x > seen.left + 3 && x < seen.right - 3 && y > seen.top + 3 && y < seen.bottom - 3;
    if (!inSight(at(side)) && inSight(at(-side))) side = -side;
    return at(side);
  }

  /** @param {Spot} point @param {Spot} held @param {any} knob @param {any} leg @param {any} tip */
  function drawLeg(point, held, knob, leg, tip) {
    const far = span(point, held);
    const out = towards(...point, ...held);
    const neck = along(...point, out, Math.min(0.42 * far, 16));
    const wide = (/** @type {Spot} */ at, /** @type {number} */ half) =>
      [-90, 90].map((way) => along(...at, out + way, half));
    const [left, right] = wide(neck, 1.5);
    const [headLeft, headRight] = wide(held, 2.2);
    const [thinLeft, thinRight] = wide(neck, 0.75);
    leg.setAttribute("d", `M${left}L${headLeft}L${headRight}L${right}Z`);
    tip.setAttribute("d", `M${point}L${thinLeft}L${thinRight}Z`);
    placeAt(knob, ...neck);
  }

  function show() {
    const held = headAt();
    drawLeg(a, held, pointOne, legs[0], tips[0]);
    drawLeg(b, held, pointTwo, legs[1], tips[1]);
    setValue(swingOne, towards(...b, ...a));
    setValue(swingTwo, towards(...a, ...b));
    placeAt(head, ...held);
    counter.textContent = say("Steps: {count}", { count: steps });
  }

  function take() {
    const [x, y] = middleOf(top.seen());
    const half = Math.min(15, (top.seen().right - top.seen().left) / 8);
    [a, b] = [
      [x - half, y],
      [x + half, y],
    ];
    steps = 0;
    side = 1;
    show();
  }

  take();
  return {
    node,
    take,
    lie: () => ({ x1: fine(a[0]), y1: fine(a[1]), x2: fine(b[0]), y2: fine(b[1]), steps }),
    /** @param {DividersLie} lie */
    lay(lie) {
      [a, b] = [
        [lie.x1, lie.y1],
        [lie.x2, lie.y2],
      ];
      steps = Math.round(lie.steps ?? 0);
      show();
    },
    seen: show,
    panel: el(
      "span",
      { class: "nav-panel" },
      button(say("Step on"), () => step(1)),
      button(say("Step back"), () => step(-1)),
      counter,
    ),
    spoken: () =>
      say("Dividers: point 1 {one}; point 2 {two}; steps: {count}.", {
        one: spokenSpot(a),
        two: spokenSpot(b),
        count: steps,
      }),
    how: say(
      "Drag the numbered knobs to set the points; drag the head to carry the opening to a scale; drag a leg to swing it; step on to walk and count.",
    ),
  };
}
