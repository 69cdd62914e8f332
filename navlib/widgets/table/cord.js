// @ts-check
// A cord: laid along a way, then pulled straight and held against a scale.

/** Its points in mm of sheet; `straight` is where it begins and which way it runs when pulled
 * straight, or null while it lies along its points.
 * @typedef {{points: Spot[], straight: null | {x: number, y: number, turn: number}}} CordLie */

/** A cord with knots also tells how far apart they are, 0 while none are tied.
 * @typedef {CordLie & {knots: number}} KnottedLie */

/** A cord laid by hand follows at steps of this, mm. */
const LAID_MM = 2.5;

/** @param {Spot[]} points @returns {number} mm */
const lengthOf = (points) => points.slice(1).reduce((sum, point, n) => sum + span(points[n], point), 0);

/**
 * @param {Top} top
 * @param {boolean} [knotted]  whether knots can be tied in it
 * @returns {Instrument}
 */
function cord(top, knotted = false) {
  const { size } = top;
  /** How far apart its knots are, mm; 0 while there are none. */
  let every = 0;
  const knots = draw("g", { class: "nav-knots" });
  /** @type {Spot[]} */
  let points = [];
  /** @type {CordLie["straight"]} */
  let straight = null;
  let begun = 90;
  /** The point that the keyboard is on. */
  let current = 0;

  const edge = draw("polyline", { class: "nav-cord-edge" });
  const twist = draw("polyline", { class: "nav-cord" });
  const beads = draw("g", {});
  const pulledHit = draw("line", { class: "nav-cord-hit" });
  const pulledEdge = draw("line", { class: "nav-cord-edge" });
  const pulledTwist = draw("line", { class: "nav-cord" });
  const pulled = pointPart(
    top,
    say("Straight cord: move it"),
    () => [straight?.x ?? 0, straight?.y ?? 0],
    (spot) => {
      if (!straight) return;
      // Longer than the scale, it may hang over the sheet's edge, as long as some of it lies on it.
      const far = lengthOf(points);
      const [dx, dy] = along(0, 0, straight.turn, far);
      const x = within(spot[0], Math.min(0, -dx) + 3, size.width + Math.max(0, -dx) - 3);
      const y = within(spot[1], Math.min(0, -dy), size.height + Math.max(0, -dy));
      straight = { ...straight, x, y };
      show();
    },
    {},
    pulledHit,
    pulledEdge,
    pulledTwist,
  );
  const grip = turnPart(
    top,
    say("Turn the straight cord about its beginning"),
    () => [straight?.x ?? 0, straight?.y ?? 0],
    (by) => {
      if (!straight) return;
      straight = { ...straight, turn: wrap(begun + by) };
      show();
    },
    () => {
      begun = straight?.turn ?? 90;
    },
    gripMark(),
  );
  const whole = draw("g", {}, pulled, grip);
  const laid = draw("g", {}, edge, twist, beads);
  const called = knotted ? say("Cord with knots") : say("Cord");
  const node = draw("g", { class: "nav-cord-all", role: "group", "aria-label": called }, laid);

  const tie = button(say("Tie knots this far apart"), () => {
    every = lengthOf(points);
    show();
    top.moved();
  });
  const along_ = button(say("Lay it along a way"), () => layByHand());
  const pull = button("", () => {
    if (straight) straight = null;
    else {
      const seen = top.seen();
      const far = lengthOf(points);
      const x = Math.max(seen.left + 6, (seen.left + seen.right - far) / 2);
      straight = { x, y: seen.top + (seen.bottom - seen.top) * 0.75, turn: 90 };
    }
    show();
    top.moved();
  });

  /** @param {number} n @returns {any} */
  function bead(n) {
    const end = n === 0 || n === points.length - 1;
    const handle = pointPart(
      top,
      say("Point {number} of the cord. Enter adds one after it, Delete takes it out, Home and End go along the cord", {
        number: n + 1,
      }),
      () => points[n],
      (spot) => {
        points[n] = onSheet(spot, size);
        show();
      },
      { tabindex: n === current ? 0 : -1, focus: () => choose(n) },
      inPixels(hit(end ? 14 : 9), draw("circle", { class: end ? "nav-knob" : "nav-bead", r: end ? 8 : 4.5 })),
    );
    pressable(handle, () => insert(n));
    deletable(handle, () => remove(n));
    handle.addEventListener("dblclick", () => remove(n));
    handle.addEventListener("keydown", (/** @type {KeyboardEvent} */ event) => {
      const to = { Home: n - 1, End: n + 1 }[event.key];
      if (to === undefined) return;
      event.preventDefault();
      event.stopPropagation();
      choose(within(to, 0, points.length - 1));
      top.focus(beads.children[current]);
    });
    return handle;
  }

  /** @param {number} n */
  function choose(n) {
    current = n;
    for (const [k, one] of [...beads.children].entries()) {
      one.setAttribute("tabindex", k === n ? "0" : "-1");
    }
  }

  /** @param {number} n  the new point stands half-way to the next, or goes on at the end */
  function insert(n) {
    const [x, y] = points[n];
    const next = points[n + 1];
    const [beforeX, beforeY] = points[n - 1] ?? [x - 6, y];
    /** @type {Spot} */
    const spot = next ? [(x + next[0]) / 2, (y + next[1]) / 2] : [2 * x - beforeX, 2 * y - beforeY];
    points.splice(n + 1, 0, onSheet(spot, size));
    current = n + 1;
    show();
    top.moved();
    top.focus(beads.children[current]);
  }

  /** @param {number} n */
  function remove(n) {
    if (points.length <= 2) return;
    points.splice(n, 1);
    current = Math.min(n, points.length - 1);
    show();
    top.moved();
    top.focus(beads.children[current]);
  }

  /** Follow the hand: the cord lies where it is drawn. */
  function layByHand() {
    straight = null;
    show();
    /** @type {Spot[]} */
    let fresh = [];
    /** @type {Spot} */
    let last = [0, 0];
    top.space.arm({
      down(/** @type {number} */ x, /** @type {number} */ y) {
        fresh = [onSheet([x, y], size)];
      },
      move(/** @type {number} */ x, /** @type {number} */ y) {
        last = onSheet([x, y], size);
        if (span(/** @type {Spot} */ (fresh.at(-1)), last) < LAID_MM) return;
        fresh.push(last);
        if (fresh.length < 2) return;
        points = fresh;
        show();
      },
      up() {
        if (fresh.length < 2) return;
        if (span(/** @type {Spot} */ (fresh.at(-1)), last) > 0.2) fresh.push(last);
        points = fresh;
        current = 0;
        top.space.arm(null);
        show();
        top.moved();
        top.focus(beads.children[0]);
      },
      stop() {},
    });
  }

  function show() {
    node.replaceChildren(straight ? whole : laid, knots);
    pull.textContent = straight ? say("Lay it back") : say("Pull it straight");
    if (straight) {
      const far = lengthOf(points);
      const [x2, y2] = along(straight.x, straight.y, straight.turn, far);
      tied(knots, [[straight.x, straight.y], [x2, y2]], every);
      for (const line of [pulledHit, pulledEdge, pulledTwist]) {
        set(line, { x1: straight.x, y1: straight.y, x2, y2 });
      }
      const out = knobDistance([straight.x, straight.y], straight.turn, far * 0.7, top.seen());
      placeAt(grip, ...along(straight.x, straight.y, straight.turn, out), straight.turn);
      setValue(grip, straight.turn);
      return;
    }
    const path = points.map((point) => point.join(",")).join(" ");
    tied(knots, points, every);
    edge.setAttribute("points", path);
    twist.setAttribute("points", path);
    if (beads.children.length !== points.length) {
      beads.replaceChildren(...points.map((_, n) => bead(n)));
    }
    for (const [n, point] of points.entries()) placeAt(beads.children[n], ...point);
    choose(current);
  }

  function take() {
    const [x, y] = middleOf(top.seen());
    points = [-12, -4, 4, 12].map((off) => [x + off, y]);
    current = 0;
    straight = null;
    show();
  }

  take();
  return {
    node,
    take,
    lie: () => ({
      points: points.map(([x, y]) => [fine(x), fine(y)]),
      straight: straight && { x: fine(straight.x), y: fine(straight.y), turn: fine(straight.turn) },
      ...(knotted ? { knots: fine(every) } : {}),
    }),
    /** @param {CordLie & {knots?: number}} lie */
    lay(lie) {
      if (lie.points.length < 2) return;
      points = lie.points.map(([x, y]) => [x, y]);
      straight = lie.straight ? { ...lie.straight } : null;
      every = lie.knots ?? 0;
      current = Math.min(current, points.length - 1);
      show();
    },
    seen: () => straight && show(),
    panel: el("span", { class: "nav-panel" }, along_, pull, ...(knotted ? [tie] : [])),
    spoken: () =>
      straight
        ? say("Cord pulled straight, beginning {spot}, running {turn}.", {
            spot: spokenSpot([straight.x, straight.y]),
            turn: figures(straight.turn),
          })
        : say("Cord laid through {count} points, point {number} {spot}.", {
            count: points.length,
            number: current + 1,
            spot: spokenSpot(points[current]),
          }),
    how: knotted ? knottedHow() : say(
      "Press “Lay it along a way” and draw along the coast, or drag its points. Then pull it straight and lay it on the scale.",
    ),
  };
}
