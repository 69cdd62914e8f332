// @ts-check
// A romer on a piece of the land map: its corner on a place, its edges read at the grid lines.

const KM = 1000;
const ARM = 66; // breadth of the romer's arms

/** @param {{model: any, el: HTMLElement}} context */
function render({ model, el: root }) {
  /** @param {string} name */
  const get = (name) => model.get(name);
  const [west, south, east, north] = get("frame");
  const letters = get("letters");
  const px = 568 / (east - west);
  const part = gridPart({ left: 62, top: 10, px, west, south, wide: east - west, high: north - south });
  const now = () => /** @type {Pair} */ ([get("east"), get("north")]);
  /** @param {Pair} place @param {boolean} done */
  function move([toEast, toNorth], done) {
    model.set("east", within(toNearest(toEast, 5), west, east));
    model.set("north", within(toNearest(toNorth, 5), south, north));
    if (done) model.save_changes();
  }
  /** @param {string} name @returns {(value: any) => void} */
  const choose = (name) => (value) => {
    model.set(name, value);
    model.save_changes();
  };

  const address = URL.createObjectURL(new Blob([get("picture")], { type: "image/svg+xml" }));
  const sought = draw("circle", { class: "nav-sought", r: 20 });
  const read = draw("path", { class: "nav-sight" });
  const card = draw("g", { class: "nav-card-laid" });
  const corner = movable(
    say("The romer’s corner"),
    east,
    draw("circle", { class: "nav-romer-corner nav-place", r: 13 }),
    draw("path", { class: "nav-axis", d: "M-6 0H6M0 -6V6" }),
  );
  const drawing = drawingOf(
    part.bottom + 76,
    mapDrawn(get("place_on_picture"), address, part),
    sought,
    card,
    ...gridLines(part, KM, 4, 1).filter((node) => node.tagName === "text"),
    read,
    corner,
    label(say("For training, not for navigation"), 630, part.bottom + 66, {
      class: "nav-quiet",
      "text-anchor": "end",
    }),
  );
  const places = get("places");
  const which = oneOf(
    say("Which place?"),
    places.map((/** @type {any[]} */ [name], /** @type {number} */ n) => [n, name]),
    choose("sought"),
  );
  const turned = oneOf(
    say("How does the romer lie?"),
    [[false, say("right way up")], [true, say("upside down")]],
    choose("turned"),
  );
  const edge = oneOf(
    say("Which edge?"),
    [[25_000, "1:25 000"], [50_000, "1:50 000"]],
    choose("edge"),
  );
  const found = reading("");
  const sums = el("ul", { class: "nav-sums" });
  const metres = (/** @type {number} */ value) => `${value} m`;
  const eastward = quantityControl(
    say("Corner, east"),
    { min: west, max: east, step: 5, unit: "m", say: metres },
    (value, done) => move([value, get("north")], done),
  );
  const northward = quantityControl(
    say("Corner, north"),
    { min: south, max: north, step: 5, unit: "m", say: metres },
    (value, done) => move([get("east"), value], done),
  );
  for (const control of [eastward, northward]) control.node.classList.add("nav-long");
  const { node, sentence } = demoFrame(
    say("A romer on the map"),
    say("A piece of the land map at 1:25 000 with a romer on it"),
    drawing,
    which.node,
    found.node,
    sums,
    el("div", { class: "nav-sides" }, turned.node, edge.node),
    eastward.node,
    northward.node,
  );

  function show() {
    const at = now();
    const [isTurned, scaleOf] = [get("turned"), get("edge")];
    const [name, ...target] = places[get("sought")];
    const parts = at.map((m) => edgeRead(m, isTurned, scaleOf));
    const [x, y] = part.at(at);
    set(sought, { transform: `translate(${part.at(target).join(" ")})` });
    set(card, { transform: `translate(${x} ${y})${isTurned ? " rotate(180)" : ""}` });
    card.replaceChildren(...romerDrawn(px * KM, scaleOf));
    const [toX, toY] = at.map((m) => (isTurned ? (KM - (m % KM)) % KM : m % KM) * px * (isTurned ? -1 : 1));
    set(read, { d: `M${x - toX} ${y}H${x}V${y + toY}` });
    const off = Math.hypot(at[0] - target[0], at[1] - target[1]);
    const written = parts.some((one) => one === null) ? "–" : [
      lettersOf(letters, at),
      ...at.map((m, axis) => half(m, 4) + parts[axis]),
    ].join(" ");
    set(corner, { transform: `translate(${x} ${y})`, "aria-valuenow": at[0], "aria-valuetext": written });
    which.show(get("sought"));
    turned.show(isTurned);
    edge.show(scaleOf);
    found.value.textContent = written;
    found.more.textContent = off < 30
      ? say("the corner is on {name}", { name })
      : say("the corner is {far} m from {name}", { far: toNearest(off, 10), name });
    showLines(sums, [
      half4(say("East"), at[0], parts[0]),
      half4(say("North"), at[1], parts[1]),
    ]);
    eastward.show(at[0]);
    northward.show(at[1]);
    sentence.textContent =
      off < 30
        ? verdict(reference(letters, at, 6), written, isTurned, scaleOf)
        : say("Pull the romer’s corner onto {name}. Its edges stay along the grid lines.", { name });
  }

  roams(corner, drawing, { ...part, now, step: () => 50, fine: () => 5 }, move);
  const watched = "change:east change:north change:sought change:turned change:edge";
  model.on(watched, show);
  root.append(node);
  show();
  return () => {
    model.off(watched, show);
    URL.revokeObjectURL(address);
  };
}

/** The tenths that the edge shows at its grid line; null where the edge ends too soon.
 * @param {number} metres @param {boolean} turned @param {number} edge @returns {number | null} */
function edgeRead(metres, turned, edge) {
  const rest = turned ? (KM - (metres % KM)) % KM : metres % KM;
  const tenth = Math.floor((rest * (edge / 25_000)) / 100 + 1e-9);
  return tenth < 10 ? tenth : null;
}

/** @param {string} way @param {number} metres @param {number | null} tenth @returns {string} */
const half4 = (way, metres, tenth) =>
  tenth === null
    ? say("{way}: line {line}, and the edge does not reach it", { way, line: half(metres, 4) })
    : say("{way}: line {line}, and {tenth} tenths", { way, line: half(metres, 4), tenth });

/**
 * The piece of the picture that lies under the figure.
 * @param {[number, number, number, number, number]} lies  of the picture: width and height in mm,
 *   easting and northing of its top left corner, and metres to a millimetre
 * @param {string} address @param {GridPart} part
 */
function mapDrawn([width, height, west, north, metres], address, part) {
  const size = { x: part.left, y: part.top, width: part.right - part.left, height: part.bottom - part.top };
  const view = [
    (part.west - west) / metres,
    (north - part.north) / metres,
    (part.east - part.west) / metres,
    (part.north - part.south) / metres,
  ];
  return draw(
    "g",
    {},
    draw("svg", { ...size, viewBox: view.join(" ") }, draw("image", { href: address, width, height })),
    draw("rect", { ...size, class: "nav-grid", fill: "none" }),
  );
}

/** The romer, its corner at 0, 0: an arm to the left and one downwards, each with its tenths.
 * @param {number} km px of a kilometre on this map @param {number} edge @returns {any[]} */
function romerDrawn(km, edge) {
  const tenth = (km / 10) * (25_000 / edge);
  const long = km * 1.12;
  const every = edge > 25_000 ? 5 : 2;
  const marks = [];
  for (let n = 1; n <= 10; n++) {
    const length = n % 5 ? 12 : 20;
    marks.push(draw("path", { class: "nav-axis", d: `M${-n * tenth} 0v${length}M0 ${n * tenth}h${-length}` }));
    if (n % every || n * tenth < 48) continue; // no room in the corner
    marks.push(
      label(String(n), -n * tenth, 38, { class: "nav-romer-figure" }),
      label(String(n), -30, n * tenth + 6, { class: "nav-romer-figure" }),
    );
  }
  const scaleWords = edge > 25_000 ? "1:50 000" : "1:25 000";
  return [
    draw("path", { class: "nav-romer-body", d: `M0 0H${-long}V${ARM}H${-ARM}V${long}H0Z` }),
    ...marks,
    label(scaleWords, -long / 2 - 10, ARM - 6, { class: "nav-romer-figure nav-strong" }),
  ];
}

/** @param {string} right @param {string} written @param {boolean} turned @param {number} edge */
function verdict(right, written, turned, edge) {
  if (written === right && !turned && edge === 25_000) {
    return say("Read where the line on the left meets the upper edge, and where the line below meets the right edge.");
  }
  if (written === right) return say("Right by chance: at this place the slip does not show.");
  return turned
    ? say("Upside down the tenths run backwards, from the far lines. The square is right, so it looks right: it should be {right}.", { right })
    : say("The edge for another map scale: ten of its tenths do not fit one square. It should be {right}.", { right });
}

export default { render };
