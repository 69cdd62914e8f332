// @ts-check
// A romer: a card whose corner is laid on a place; the grid lines cross its edges at the tenths.

/** Where it lies: its corner in mm of sheet, its turn in degrees, and the scale of that corner.
 * @typedef {{x: number, y: number, turn: number, scale: number}} RomerLie */

/** Scales that its corners are made for, with the side of a kilometre square in mm.
 * @type {Record<number, number>} */
const SQUARE_MM = { 25000: 40, 50000: 20 };
const CARD_MM = 47;

/** @param {number} scale @returns {string} */
const fraction = (scale) => `1:${Math.floor(scale / 1000)} 000`;

/** @param {number} scale @returns {any} the tenths of a square, out from the corner both ways */
function tenths(scale) {
  const tenth = SQUARE_MM[scale] / 10;
  const [named, size] = tenth < 3 ? [5, 2.4] : [2, 2.7];
  let path = "";
  const names = [];
  for (let n = 0; n <= 10; n++) {
    const at = n * tenth;
    const long = n % 5 ? 2.6 : 3.6;
    path += `M${-at} 0v${long}M0 ${at}h${-long}`;
    if (tenth > 3 && n < 10) path += `M${-at - tenth / 2} 0v1.3M0 ${at + tenth / 2}h-1.3`;
    if (n % named || !n) continue;
    for (const [x, y] of [
      [-at, 4 + size * 0.8],
      [-4.2 - size * 0.6, at + size * 0.36],
    ]) {
      names.push(draw("text", { class: "nav-figure", x, y, "font-size": size }, String(n)));
    }
  }
  return draw("g", {}, draw("path", { class: "nav-ticks", d: path }), ...names);
}

/**
 * @param {Top} top
 * @returns {Instrument}
 */
function romer(top) {
  const { size } = top;
  /** @type {RomerLie} */
  let lie = { x: 0, y: 0, turn: 0, scale: 25000 };
  let begun = lie;
  const scales = draw("g", {});
  const title = draw("text", { class: "nav-figure nav-romer-title", x: -27, y: 26, "font-size": 4 });
  const move = pointPart(
    top,
    say("Corner of the romer: lay it on the place"),
    () => [lie.x, lie.y],
    (spot) => {
      const [x, y] = onSheet(spot, size);
      lay({ ...lie, x, y });
    },
    {},
    draw("path", { class: "nav-glass", d: `M0 0H${-CARD_MM}V${CARD_MM}H0Z` }),
    scales,
    title,
    draw("path", { class: "nav-edge", d: `M${-CARD_MM} 0H0V${CARD_MM}` }),
    inPixels(hit(), draw("circle", { class: "nav-hub", r: 9 })),
  );
  const grip = turnPart(
    top,
    say("Turn the romer about its corner"),
    () => [lie.x, lie.y],
    (by) => lay({ ...lie, turn: wrap(begun.turn + by) }),
    () => {
      begun = lie;
    },
    gripMark(),
  );
  placeAt(grip, -CARD_MM + 5, CARD_MM - 5, 45);
  const other = button("", () => {
    lay({ ...lie, scale: lie.scale === 25000 ? 50000 : 25000 });
    top.moved();
  });
  const node = draw("g", { class: "nav-romer", role: "group", "aria-label": say("Romer") }, move, grip);
  let drawn = 0;

  function show() {
    node.setAttribute("transform", `translate(${lie.x} ${lie.y}) rotate(${lie.turn})`);
    setValue(grip, lie.turn);
    if (drawn === lie.scale) return;
    drawn = lie.scale;
    scales.replaceChildren(tenths(lie.scale));
    title.textContent = fraction(lie.scale);
    other.textContent = say("Use the corner for {scale}", {
      scale: fraction(lie.scale === 25000 ? 50000 : 25000),
    });
  }

  /** @param {RomerLie} next */
  function lay(next) {
    lie = { ...next, scale: next.scale in SQUARE_MM ? next.scale : 25000 };
    show();
  }

  function take() {
    const [x, y] = middleOf(top.seen());
    lay({ ...lie, x: x + 15, y: y - 10, turn: 0 });
  }

  take();
  return {
    node,
    take,
    lie: () => ({ x: fine(lie.x), y: fine(lie.y), turn: fine(lie.turn), scale: lie.scale }),
    lay,
    panel: el("span", { class: "nav-panel" }, other),
    spoken: () =>
      say("Romer for {scale}: corner {spot}, turned to {turn}.", {
        scale: fraction(lie.scale),
        spot: spokenSpot([lie.x, lie.y]),
        turn: figures(lie.turn),
      }),
    how: say(
      "Take the corner for the sheet’s scale and lay it on the place. Read the tenths where the grid line to the west crosses the upper edge, then where the line to the south crosses the side.",
    ),
  };
}
