// @ts-check
// A ruler in millimetres.

/** Where it lies: its zero mark in mm of sheet, the way its edge runs in degrees.
 * @typedef {{x: number, y: number, turn: number}} RulerLie */

const RULER_WIDE_MM = 16;
/** How far below the edge the grip stands. */
const GRIP_DOWN_MM = 12;

/**
 * @param {Top} top
 * @returns {Instrument}
 */
function ruler(top) {
  const { size } = top;
  const length = Math.min(150, Math.floor((0.95 * Math.max(size.width, size.height)) / 10) * 10);
  /** @type {RulerLie} */
  let lie = { x: 0, y: 0, turn: 90 };
  let begun = lie;
  let path = "";
  const numbers = [];
  for (let at = 0; at <= length; at++) {
    path += `M${at} 0v${at % 10 === 0 ? 4.6 : at % 5 === 0 ? 3.4 : 2.2}`;
    if (at % 10) continue;
    numbers.push(draw("text", { class: "nav-figure", x: at, y: 7.6, "font-size": 2.8 }, String(at)));
  }
  const move = pointPart(
    top,
    say("Zero of the ruler: move it"),
    () => [lie.x, lie.y],
    (spot) => {
      const [x, y] = onSheet(spot, size);
      lay({ ...lie, x, y });
    },
    {},
    draw("rect", {
      class: "nav-glass",
      x: -4,
      width: length + 8,
      height: RULER_WIDE_MM,
      rx: 1,
    }),
    draw("path", { class: "nav-ticks", d: path }),
    draw("path", { class: "nav-edge", d: `M-4 0H${length + 4}` }),
    ...numbers,
    draw("text", { class: "nav-figure", x: length / 2 - 15, y: 13.6, "font-size": 3 }, say("millimetres")),
    inPixels(draw("circle", { class: "nav-hub nav-zero", r: 8 })),
  );
  const turn = turnPart(
    top,
    say("Turn the ruler about its zero"),
    () => [lie.x, lie.y],
    (by) => lay({ ...lie, turn: wrap(begun.turn + by) }),
    () => {
      begun = lie;
    },
    gripMark(),
  );
  const node = draw(
    "g",
    { class: "nav-ruler", role: "group", "aria-label": say("Ruler") },
    move,
    turn,
  );

  function show() {
    node.setAttribute("transform", `translate(${lie.x} ${lie.y}) rotate(${lie.turn - 90})`);
    const out = knobDistance(along(lie.x, lie.y, lie.turn + 90, GRIP_DOWN_MM), lie.turn, length - 8, top.seen());
    placeAt(turn, out, GRIP_DOWN_MM, 90);
    setValue(turn, lie.turn);
  }

  /** @param {RulerLie} next */
  function lay(next) {
    lie = next;
    show();
  }

  function take() {
    const { left, top: upper, bottom } = top.seen();
    lay({ x: left + 10, y: upper + (bottom - upper) * 0.7, turn: 90 });
  }

  take();
  return {
    node,
    take,
    lie: () => ({ x: fine(lie.x), y: fine(lie.y), turn: fine(lie.turn) }),
    lay,
    seen: show,
    edges: () => [[along(lie.x, lie.y, lie.turn, -4), along(lie.x, lie.y, lie.turn, length + 4)]],
    spoken: () =>
      say("Ruler: zero {spot}, its edge runs {turn}.", {
        spot: spokenSpot([lie.x, lie.y]),
        turn: figures(lie.turn),
      }),
    how: say("Drag the ruler until its zero stands on one end, turn it by the grip, and read at the other end."),
  };
}
