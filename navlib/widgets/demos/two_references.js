// @ts-check
// Two grid references: the sides east and north, the straight way and its bearing.

const HUNDRED = 100; // metres: what six figures tell
const SIDE = 12_000;

/** @param {number} metres @returns {string} */
const kilometres = (metres) => `${toNearest(Math.abs(metres) / 1000, 0.1).toFixed(1)} km`;
/** @param {number} metres @returns {string} */
const eastWritten = (metres) =>
  metres < 0
    ? say("{far} west", { far: kilometres(metres) })
    : say("{far} east", { far: kilometres(metres) });
/** @param {number} metres @returns {string} */
const northWritten = (metres) =>
  metres < 0
    ? say("{far} south", { far: kilometres(metres) })
    : say("{far} north", { far: kilometres(metres) });

/** @param {{model: any, el: HTMLElement}} context */
function render({ model, el: root }) {
  const letters = model.get("letters");
  const [west, south] = model.get("corner");
  const part = gridPart({ left: 80, top: 16, px: 500 / SIDE, west, south, wide: SIDE, high: SIDE });
  /** @param {string} which @returns {Pair} */
  const get = (which) => model.get(which);
  /** @param {string} which @returns {(place: Pair, done: boolean) => void} */
  const move = (which) => (place, done) => {
    const into = place.map((m, axis) => {
      const low = axis ? south : west;
      return within(toNearest(m, HUNDRED), low, low + SIDE - HUNDRED);
    });
    model.set(which, into);
    if (done) model.save_changes();
  };

  const sides = draw("g", {});
  const names = ["A", "B"].map(lettered);
  const places = names.map((name) => movable(name.textContent, west + SIDE, dot(), name));
  const drawing = draw(
    "svg",
    { viewBox: "0 0 640 570" },
    draw("rect", { class: "nav-sea", width: 640, height: 570 }),
    ...gridLines(part, 1000, 4, 2),
    ...lettersDrawn(part, letters),
    sides,
    ...places,
  );
  const distance = reading(say("in a straight line"));
  const direction = reading(say("grid bearing"));
  const sums = el("ul", { class: "nav-sums" });
  const boxes = ["a", "b"].map((which, n) =>
    referenceBox(n ? say("To B") : say("From A"), letters, (place) => {
      const fits = place && place.every((m, axis) => {
        const low = axis ? south : west;
        return low <= m && m < low + SIDE;
      });
      if (fits) move(which)(place, true);
      show();
      if (!fits) {
        sentence.textContent = say(
          "Write letters and six figures of a place on this piece of the grid, such as {example}.",
          { example: reference(letters, get(which), 6) },
        );
      }
    }),
  );
  const { node, sentence } = demoFrame(
    say("Two references, one leg"),
    say("Two places on the grid, the sides east and north between them, and the straight way"),
    drawing,
    distance.node,
    direction.node,
    sums,
    ...boxes.map((box) => box.node),
  );

  function show() {
    const [a, b] = [get("a"), get("b")];
    const [east, north] = [b[0] - a[0], b[1] - a[1]];
    const far = Math.hypot(east, north);
    const way = towards(0, 0, east, -north);
    sides.replaceChildren(...triangle(part, a, b));
    for (const [n, at] of [a, b].entries()) {
      const read = reference(letters, at, 6);
      set(places[n], {
        transform: `translate(${part.at(at).join(" ")})`,
        "aria-valuenow": at[0],
        "aria-valuetext": read,
      });
      above(names[n], part.at(at)[1]);
      boxes[n].show(read);
    }
    distance.value.textContent = kilometres(far);
    direction.value.textContent = far ? bearing(way, "G") : "–";
    showLines(sums, [
      sideSum(say("East"), a[0], b[0], eastWritten(east)),
      sideSum(say("North"), a[1], b[1], northWritten(north)),
    ]);
    sentence.textContent = remark(a, b, way);
  }

  for (const [n, which] of ["a", "b"].entries()) {
    roams(
      places[n],
      drawing,
      { ...part, now: () => get(which), step: () => 500, fine: () => HUNDRED },
      move(which),
    );
  }
  model.on("change:a change:b", show);
  root.append(node);
  show();
  return () => model.off("change:a change:b", show);
}

/** @param {GridPart} part @param {Pair} a @param {Pair} b @returns {any[]} */
function triangle(part, a, b) {
  const [east, north] = [b[0] - a[0], b[1] - a[1]];
  const [[x, y], [toX, toY]] = [part.at(a), part.at(b)];
  const onRight = toX > 470;
  return [
    draw("path", { class: "nav-back", d: `M${x} ${y}H${toX}V${toY}` }),
    draw("path", { class: "nav-sight", d: `M${x} ${y}L${toX} ${toY}` }),
    ...(Math.abs(toX - x) > 60
      ? [
          label(eastWritten(east), within((x + toX) / 2, 160, 510), y + (north < 0 ? -14 : 32), {
            class: "nav-on-paper",
          }),
        ]
      : []),
    ...(Math.abs(toY - y) > 40
      ? [
          label(northWritten(north), toX + (onRight ? -14 : 14), (y + toY) / 2 + 8, {
            class: "nav-on-paper",
            "text-anchor": onRight ? "end" : "start",
          }),
        ]
      : []),
  ];
}

/** One side as a sum in tenths of a kilometre; past the edge of the letters figures go on from 1000.
 * @param {string} way @param {number} from @param {number} to @param {string} result */
function sideSum(way, from, to, result) {
  const [one, other] = [half(from, 6), half(to, 6)];
  const [low, high] = [from, to].map((m) => Math.floor(m / LETTERED));
  const plain = (/** @type {string} */ figures, /** @type {boolean} */ further) =>
    further ? `(1000 + ${figures})` : figures;
  return `${way}: ${plain(other, high > low)} − ${plain(one, low > high)} = ${result}`;
}

/** @param {Pair} a @param {Pair} b @param {number} way @returns {string} */
function remark(a, b, way) {
  const crossed = a.findIndex((m, axis) => Math.floor(m / LETTERED) !== Math.floor(b[axis] / LETTERED));
  if (crossed >= 0) {
    const wrong = (b[crossed] % LETTERED) - (a[crossed] % LETTERED);
    const far = crossed ? northWritten(wrong) : eastWritten(wrong);
    return say(
      "With the letters forgotten it would be {far}. The figures start again at 000 where the letters change: that step is 100 km more.",
      { far },
    );
  }
  const [east, north] = [b[0] - a[0], b[1] - a[1]];
  if (!east || !north) return say("Straight along a line of the grid: one side is nothing, and there is no triangle.");
  const values = { round: kilometres(Math.abs(east) + Math.abs(north)), bare: bearing(towards(0, 0, Math.abs(east), -Math.abs(north)), "G") };
  return way < 90
    ? say("North and east both grow, so the bearing lies below 090. Round the corner it would be {round}.", values)
    : say("The bare angle would be {bare}, as if you went north-east. Look at the sketch before you write the bearing.", values);
}

/**
 * A box for a six-figure reference.
 * @param {string} name @param {Letters} letters @param {(place: Pair | null) => void} told
 */
function referenceBox(name, letters, told) {
  const id = unique("reference");
  const box = el("input", { type: "text", id, class: "nav-reference", change: () => told(read(box.value)) });
  /** @param {string} text @returns {Pair | null} */
  function read(text) {
    const found = /^\s*([A-Z]{2})\s*(\d{3})\s*(\d{3})\s*$/i.exec(text);
    const square = letters.find(([, , name]) => name === found?.[1].toUpperCase());
    if (!found || !square) return null;
    return [square[0] + Number(found[2]) * HUNDRED, square[1] + Number(found[3]) * HUNDRED];
  }
  return {
    node: el("div", { class: "nav-control" }, el("label", { for: id }, name), box),
    /** @param {string} words */
    show: (words) => (box.value = words),
  };
}

export default { render };
