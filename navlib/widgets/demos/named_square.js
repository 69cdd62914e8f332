// @ts-check
// One place named with 4, 6, 8 or 10 figures: the square that it lies in, cut off and not rounded.

const CELLS = 10; // squares across the figure
const [LEFT, TOP, WIDE] = [136, 16, 490];

/** @param {number} metres @returns {string} 1 km, 100 m */
const sideWritten = (metres) => (metres < 1000 ? `${metres} m` : `${metres / 1000} km`);

/** @param {{model: any, el: HTMLElement}} context */
function render({ model, el: root }) {
  /** @param {string} name */
  const get = (name) => model.get(name);
  const letters = get("letters");
  const [west, south, east, north] = get("limits");
  const size = () => 10 ** (5 - get("figures") / 2);
  const now = () => /** @type {Pair} */ ([get("east"), get("north")]);
  /** @type {GridPart} */
  let part;
  /** Lay the figure round the place. */
  function look() {
    const wide = CELLS * size();
    const [low, down] = now().map((metres) => (Math.floor(metres / size()) - 4) * size());
    part = gridPart({ left: LEFT, top: TOP, px: WIDE / wide, west: low, south: down, wide, high: wide });
  }

  /** @param {Pair} place @param {boolean} done */
  function move([toEast, toNorth], done) {
    const held = done ? null : part; // while it is dragged the place stays in the figure
    const into = (/** @type {number} */ value, /** @type {number[]} */ ...limits) =>
      within(Math.floor(value + 1e-6), Math.max(limits[0], limits[2]), Math.min(limits[1], limits[3]) - 1);
    model.set("east", into(toEast, west, east, held?.west ?? west, held?.east ?? east));
    model.set("north", into(toNorth, south, north, held?.south ?? south, held?.north ?? north));
    if (!done) return;
    const [x, y] = now();
    const edge = size();
    if (x < part.west + edge || x >= part.east - edge) look();
    if (y < part.south + edge || y >= part.north - edge) look();
    show();
    model.save_changes();
  }

  const under = draw("g", {});
  const over = draw("g", {});
  const place = movable(say("The place"), east, dot());
  const drawing = draw(
    "svg",
    { viewBox: "0 0 640 600" },
    draw("rect", { class: "nav-sea", width: 640, height: 600 }),
    under,
    over,
    label(say("east: the first half"), LEFT + WIDE / 2, 578, { class: "nav-quiet" }),
    draw(
      "text",
      { class: "nav-quiet", "text-anchor": "middle", transform: `translate(24 ${TOP + WIDE / 2}) rotate(-90)` },
      say("north: the second half"),
    ),
    place,
  );
  const ways = oneOf(
    say("How many figures?"),
    [4, 6, 8, 10].map((figures) => [
      figures,
      figures === 4 ? say("4 figures") : String(figures),
    ]),
    (figures) => {
      model.set("figures", figures);
      model.save_changes();
    },
  );
  const named = reading(say("its reference"));
  const sums = el("ul", { class: "nav-sums" });
  const metres = (/** @type {number} */ value) => `${value} m`;
  const eastward = quantityControl(
    say("East, on the grid"),
    { min: west, max: east - 1, step: 1, unit: "m", say: metres },
    (value, done) => move([value, get("north")], done),
  );
  const northward = quantityControl(
    say("North, on the grid"),
    { min: south, max: north - 1, step: 1, unit: "m", say: metres },
    (value, done) => move([get("east"), value], done),
  );
  for (const control of [eastward, northward]) control.node.classList.add("nav-long");
  const { node, sentence } = demoFrame(
    say("One place, finer and finer"),
    say("Squares of the grid, and the one in which the place lies"),
    drawing,
    ways.node,
    named.node,
    sums,
    eastward.node,
    northward.node,
  );

  function show() {
    const [figures, side, at] = [get("figures"), size(), now()];
    const corner = /** @type {Pair} */ (at.map((m) => Math.floor(m / side) * side));
    const rounded = /** @type {Pair} */ (at.map((m) => Math.floor(m / side + 0.5) * side));
    const read = reference(letters, at, figures);
    const wrong = reference(letters, rounded, figures);
    under.replaceChildren(
      squareDrawn(part, corner, side, "nav-named"),
      ...gridLines(part, side, figures, 2, corner),
      ...lettersDrawn(part, letters),
    );
    const [x, y] = part.at(corner);
    over.replaceChildren(
      draw("path", { class: "nav-way", d: `M${x} ${y}V${part.bottom + 8}M${x} ${y}H${part.left - 8}` }),
      wrong === read ? draw("g", {}) : squareDrawn(part, rounded, side, "nav-rounded"),
      draw("circle", { class: "nav-here", cx: x, cy: y, r: 7 }),
    );
    set(place, {
      transform: `translate(${part.at(at).join(" ")})`,
      "aria-valuenow": at[0],
      "aria-valuetext": say("{reference}, a square of {side}", { reference: read, side: sideWritten(side) }),
    });
    ways.show(figures);
    named.value.textContent = read;
    named.more.textContent = say("a square of {side}", { side: sideWritten(side) });
    showLines(sums, [cutOff(say("East"), at[0], figures), cutOff(say("North"), at[1], figures)]);
    eastward.show(at[0]);
    northward.show(at[1]);
    sentence.textContent = told(read, wrong, figures);
  }

  roams(
    place,
    drawing,
    {
      at: (at) => part.at(at),
      from: (spot) => part.from(spot),
      now,
      step: size,
      fine: () => Math.max(size() / 10, 1),
    },
    move,
  );
  const watched = "change:east change:north";
  const changed = () => {
    const inside = now().every((m, axis) => {
      const [low, high] = axis ? [part.south, part.north] : [part.west, part.east];
      return low <= m && m < high;
    });
    if (!inside) look();
    show();
  };
  const lookAgain = () => {
    look();
    show();
  };
  model.on(watched, changed);
  model.on("change:figures", lookAgain);
  root.append(node);
  lookAgain();
  return () => {
    model.off(watched, changed);
    model.off("change:figures", lookAgain);
  };
}

/** @param {GridPart} part @param {Pair} corner @param {number} side @param {string} kind */
function squareDrawn(part, corner, side, kind) {
  const [x, y] = part.at(corner);
  const wide = side * part.px;
  return draw("rect", { class: kind, x, y: y - wide, width: wide, height: wide });
}

/** @param {string} way @param {number} metres @param {number} figures @returns {string} */
function cutOff(way, metres, figures) {
  const [keep, five] = [half(metres, figures), half(metres, 10)];
  const rest = five.slice(keep.length);
  return rest
    ? say("{way} {five}: keep {keep}, cut off {rest}", { way, five, keep, rest })
    : say("{way} {five}: keep all of it", { way, five });
}

/** @param {string} read @param {string} wrong @param {number} figures @returns {string} */
function told(read, wrong, figures) {
  if (figures === 10) {
    return say("Ten figures keep every metre, so nothing is cut off. No map is read as finely as that.");
  }
  if (read === wrong) {
    return say("Here a rounded reference names the same square, by chance. Only one place in four is so lucky.");
  }
  const other = read.slice(0, 2) !== wrong.slice(0, 2);
  return other
    ? say("Rounded it would be {wrong}, dashed: other letters even, and the place is not in that square.", { wrong })
    : say("Rounded it would be {wrong}, dashed: the next square, and the place is not in it.", { wrong });
}

export default { render };
