// @ts-check
// A parallel rule: two bars on equal links; walked over the sheet it keeps its direction.

/** Where it lies: the middle of bar 1's outer edge in mm of sheet, the direction of its edges in
 * degrees, and how far bar 2 stands off bar 1.
 * @typedef {{x: number, y: number, turn: number, gap: number}} RuleLie */

const BAR_MM = 12;
const LINK_MM = 44;
const SHUT_MM = BAR_MM + 1;
const OPEN_MM = 43;

/**
 * @param {Top} top
 * @returns {Instrument}
 */
function parallelRule(top) {
  const { size } = top;
  const length = Math.min(150, 0.75 * Math.max(size.width, size.height));
  /** @type {RuleLie} */
  let lie = { x: 0, y: 0, turn: 90, gap: SHUT_MM };
  let begun = lie;
  const begin = () => {
    begun = lie;
  };
  /** @param {number} gap @returns {number} how far the links set bar 2 along, at this gap */
  const slide = (gap) => Math.sqrt(Math.max(LINK_MM ** 2 - gap ** 2, 0)) - length * 0.1;

  /** @param {RuleLie} at @param {number} u @param {number} v @returns {Spot} along and across */
  function spotOf(at, u, v) {
    const [x, y] = along(at.x, at.y, at.turn, u);
    return along(x, y, at.turn + 90, v);
  }

  /** Bar 1 moved so that bar 2 stays. @param {RuleLie} at @param {number} gap @returns {RuleLie} */
  function walked(at, gap) {
    const [x, y] = spotOf(at, slide(at.gap) - slide(gap), at.gap - gap);
    return { ...at, x, y, gap };
  }

  /** @param {number} dx @param {number} dy @returns {number} how far across the rule */
  const across = (dx, dy) => {
    const [x, y] = along(0, 0, begun.turn + 90, 1);
    return dx * x + dy * y;
  };
  const open = (/** @type {number} */ gap) => within(gap, SHUT_MM, OPEN_MM);

  const bar = () =>
    draw(
      "g",
      {},
      draw("rect", { class: "nav-glass", x: -length / 2, width: length, height: BAR_MM, rx: 0.6 }),
      draw("path", { class: "nav-edge", d: `M${-length / 2} 0H${length / 2}` }),
    );
  const links = [0, 1].map(() => draw("line", { class: "nav-link" }));
  const figure = (/** @type {string} */ text) =>
    draw("text", { class: "nav-bar-name", x: -length * 0.44, y: BAR_MM / 2 + 1.2, "font-size": 4 }, text);

  const one = part(
    top,
    say("Bar 1: walk it, bar 2 held"),
    {
      start: begin,
      drag: (x, y, fromX, fromY) => lay(walked(begun, open(begun.gap - across(x - fromX, y - fromY)))),
      keys: (x, y, small) => lay(walked(lie, open(lie.gap + (x + y) * stride(small)))),
    },
    { role: "slider", "aria-valuemin": 0, "aria-valuemax": 1 },
    bar(),
    figure("1"),
  );
  const barTwo = bar();
  barTwo.querySelector(".nav-edge").setAttribute("transform", `translate(0 ${BAR_MM})`);
  const two = part(
    top,
    say("Bar 2: walk it, bar 1 held"),
    {
      start: begin,
      drag: (x, y, fromX, fromY) =>
        lay({ ...begun, gap: open(begun.gap + across(x - fromX, y - fromY)) }),
      keys: (x, y, small) => lay({ ...lie, gap: open(lie.gap + (x + y) * stride(small)) }),
    },
    { role: "slider", "aria-valuemin": 0, "aria-valuemax": 1 },
    barTwo,
    figure("2"),
  );
  const lift = pointPart(
    top,
    say("Lift the rule and lay it down elsewhere"),
    () => [lie.x, lie.y],
    (spot) => {
      const [x, y] = onSheet(spot, size);
      lay({ ...lie, x, y });
    },
    {},
    hubMark(),
  );
  /** @param {1 | -1} end @param {string} words */
  const slew = (end, words) => {
    /** @returns {Spot} */
    const other = () => spotOf(begun, (-end * length) / 2, 0);
    return turnPart(
      top,
      words,
      other,
      (by) => {
        const [x, y] = other();
        const turn = wrap(begun.turn + by);
        const [toX, toY] = along(x, y, turn, (end * length) / 2);
        lay({ ...begun, x: toX, y: toY, turn });
      },
      begin,
      gripMark(),
    );
  };
  const slews = [slew(-1, say("Slew the rule by its left end")), slew(1, say("Slew the rule by its right end"))];
  const node = draw(
    "g",
    { class: "nav-rule", role: "group", "aria-label": say("Parallel rule") },
    one,
    two,
    ...links,
    ...slews,
    lift,
  );

  function show() {
    node.setAttribute("transform", `translate(${lie.x} ${lie.y}) rotate(${lie.turn - 90})`);
    placeAt(two, slide(lie.gap), lie.gap);
    for (const [n, link] of links.entries()) {
      const at = (n ? 1 : -1) * length * 0.25;
      set(link, {
        x1: at,
        y1: BAR_MM * 0.55,
        x2: at + slide(lie.gap),
        y2: lie.gap + BAR_MM * 0.45,
      });
    }
    placeAt(lift, 0, BAR_MM * 0.55);
    placeAt(slews[0], -length * 0.37, BAR_MM * 0.55, 90);
    placeAt(slews[1], length * 0.46, BAR_MM * 0.55, 90);
    for (const bar_ of [one, two]) {
      const part_ = (lie.gap - SHUT_MM) / (OPEN_MM - SHUT_MM);
      bar_.setAttribute("aria-valuenow", part_.toFixed(2));
      bar_.setAttribute("aria-valuetext", say("open {mm} mm", { mm: Math.round(lie.gap - SHUT_MM) }));
    }
    for (const slew_ of slews) setValue(slew_, lie.turn);
  }

  /** @param {RuleLie} next */
  function lay(next) {
    lie = next;
    show();
  }

  function take() {
    const [x, y] = middleOf(top.seen());
    const { top: upper } = top.seen();
    lay({ x, y: upper + (y - upper) * 0.6, turn: 90, gap: SHUT_MM });
  }

  take();
  return {
    node,
    take,
    lie: () => ({ x: fine(lie.x), y: fine(lie.y), turn: fine(lie.turn), gap: fine(lie.gap) }),
    lay,
    edges: () => {
      const half = length / 2;
      const off = slide(lie.gap);
      return [
        [spotOf(lie, -half, 0), spotOf(lie, half, 0)],
        [
          spotOf(lie, off - half, lie.gap + BAR_MM),
          spotOf(lie, off + half, lie.gap + BAR_MM),
        ],
      ];
    },
    spoken: () =>
      say("Parallel rule: middle of edge 1 {spot}; open {gap} mm.", {
        spot: spokenSpot([lie.x, lie.y]),
        gap: Math.round(lie.gap - SHUT_MM),
      }),
    how: say(
      "Lift it by the ring and slew it by a grip until an edge lies on your line. Then walk: drag bar 2, then bar 1, to the rose. Walking keeps its direction.",
    ),
  };
}
