// @ts-check
// A thumb laid across the sheet: a measure that one always has, once one knows how far it reaches.

/** Its left edge in mm of sheet, the way it is walked, its breadth in mm, and how often it was set.
 * @typedef {{x: number, y: number, turn: number, width: number, steps: number}} ThumbLie */

const THUMB_MM = { narrowest: 12, usual: 20, broadest: 30, long: 34 };

/**
 * @param {Top} top
 * @returns {Instrument}
 */
function thumb(top) {
  const { size } = top;
  /** @type {ThumbLie} */
  let lie = { x: 0, y: 0, turn: 90, width: THUMB_MM.usual, steps: 0 };
  let begun = lie;
  const begin = () => {
    begun = lie;
  };
  const skin = draw("path", { class: "nav-skin" });
  const nail = draw("path", { class: "nav-nail" });
  const edges = draw("path", { class: "nav-thumb-edges" });
  const counter = el("span", { class: "nav-count" });
  const breadth = el("span", { class: "nav-count" });

  /** @param {Spot} spot @returns {ThumbLie} there, the left edge on the sheet */
  const at = (spot) => {
    const [x, y] = onSheet(spot, size);
    return { ...lie, x, y };
  };
  const body = pointPart(
    top,
    say("Thumb: move it. Enter: a breadth on; Shift and Enter: a breadth back"),
    () => [lie.x, lie.y],
    (spot) => lay({ ...at(spot), steps: 0 }),
    {},
    skin,
    nail,
    edges,
    inPixels(hit(), draw("circle", { class: "nav-ghost", r: 12 })),
  );
  pressable(body, (back) => step(back ? -1 : 1));
  const grip = turnPart(
    top,
    say("Turn the thumb about its left edge"),
    () => [lie.x, lie.y],
    (by) => lay({ ...lie, turn: wrap(begun.turn + by), steps: 0 }),
    begin,
    gripMark(),
  );
  const turned = draw("g", {}, body, grip);
  const node = draw("g", { class: "nav-thumb", role: "group", "aria-label": say("Thumb") }, turned);

  /** @param {1 | -1} way  one breadth on along the way, or back */
  function step(way) {
    const to = along(lie.x, lie.y, lie.turn, way * lie.width);
    if (span(to, onSheet(to, size)) > 1e-9) return;
    lay({ ...lie, x: to[0], y: to[1], steps: lie.steps + way });
    top.moved(true);
  }

  /** @param {number} by  mm */
  function widen(by) {
    lay({ ...lie, width: within(lie.width + by, THUMB_MM.narrowest, THUMB_MM.broadest), steps: 0 });
    top.moved();
  }

  function show() {
    const { width } = lie;
    const { long } = THUMB_MM;
    const half = width / 2;
    // The way runs to the right; the thumb comes from below.
    skin.setAttribute("d", `M0 ${long}V${half * 0.8}Q0 ${-half} ${half} ${-half}T${width} ${half * 0.8}V${long}`);
    nail.setAttribute("d", `M${half * 0.5} ${half * 0.7}Q${half * 0.5} ${-half * 0.6} ${half} ${-half * 0.6}T${half * 1.5} ${half * 0.7}`);
    edges.setAttribute("d", `M0 -5V5M${width} -5V5`);
    placeAt(turned, lie.x, lie.y, lie.turn - 90);
    placeAt(grip, half, long * 0.8, 0);
    setValue(grip, lie.turn);
    counter.textContent = say("Breadths: {count}", { count: lie.steps });
    breadth.textContent = say("Breadth {mm} mm", { mm: Math.round(width) });
  }

  /** @param {ThumbLie} next */
  function lay(next) {
    lie = next;
    show();
  }

  function take() {
    const [x, y] = middleOf(top.seen());
    lay({ ...lie, x: x - lie.width / 2, y, steps: 0 });
  }

  take();
  return {
    node,
    take,
    lie: () => ({ ...lie, x: fine(lie.x), y: fine(lie.y), turn: fine(lie.turn) }),
    lay,
    panel: el(
      "span",
      { class: "nav-panel" },
      button(say("Step on"), () => step(1)),
      button(say("Step back"), () => step(-1)),
      counter,
      button(say("Broader"), () => widen(1)),
      button(say("Narrower"), () => widen(-1)),
      breadth,
    ),
    spoken: () =>
      say("Thumb, {width} mm broad: left edge {spot}, breadths: {count}.", {
        width: Math.round(lie.width),
        spot: spokenSpot([lie.x, lie.y]),
        count: lie.steps,
      }),
    how: say(
      "Make it as broad as your own. Lay it on the scale first: how far does one breadth reach? Then walk it along your line and count.",
    ),
  };
}
