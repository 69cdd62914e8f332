// @ts-check
// Grid north against true north along a map: the meridians lean together, the grid stays square.

const HALF = 6; // degrees of longitude drawn to either side of the middle meridian
const ACROSS = 256; // half the drawing's width holds them
const MIDDLE = [320, 250];
const [TOP, BOTTOM] = [40, 460];
const RADIANS = Math.PI / 180;

/**
 * The convergence of a grid, degrees, east positive: from true to grid north.
 * @param {number} lat @param {number} apart  degrees east of the middle meridian
 */
const convergenceAt = (lat, apart) => apart * Math.sin(lat * RADIANS);

/**
 * Where a place lies on the sphere's transverse Mercator map, in radii; x east, y north.
 * @param {number} lat @param {number} apart
 */
function onMap(lat, apart) {
  const [phi, lambda] = [lat * RADIANS, apart * RADIANS];
  return [
    Math.atanh(Math.cos(phi) * Math.sin(lambda)),
    Math.atan2(Math.tan(phi), Math.cos(lambda)),
  ];
}

/** @param {number} lat @returns {(lat: number, apart: number) => [number, number]} on the drawing */
function placing(lat) {
  const scale = ACROSS / onMap(lat, HALF)[0];
  const level = onMap(lat, 0)[1];
  return (phi, apart) => {
    const [x, y] = onMap(phi, apart);
    return [MIDDLE[0] + x * scale, MIDDLE[1] - (y - level) * scale];
  };
}

/** @param {number} lat @param {number} apart @returns {string} the meridian's path on the drawing */
function meridianPath(lat, apart) {
  const at = placing(lat);
  const reach = 4.92 * Math.cos(lat * RADIANS); // degrees of latitude that fit, either way
  const points = [];
  for (let n = -8; n <= 8; n++) points.push(at(lat + (n / 8) * reach, apart));
  return `M${points.map((point) => point.map((one) => one.toFixed(1))).join("L")}`;
}

/** @param {number} degrees @returns {string} to a tenth, with its side: 4.5° W */
const leans = (degrees) =>
  eastWest(Math.sign(degrees) * Math.abs(toNearest(Math.abs(degrees) * 10, 1) / 10));

/** @param {number} lat @returns {string} 58.8° N */
const latitude = (lat) => (lat === 0 ? "0°" : `${Math.abs(lat)}° ${lat > 0 ? "N" : "S"}`);
/** @param {string} text @returns {number} degrees north, NaN if it is no latitude */
function latitudeRead(text) {
  const found = /^\s*(\d+(?:[.,]\d+)?)\s*°?\s*([NnSs])?\s*$/.exec(text);
  if (!found) return NaN;
  return Number(found[1].replace(",", ".")) * (/s/i.test(found[2] ?? "") ? -1 : 1);
}

/** @param {{model: any, el: HTMLElement}} context */
function render({ model, el: root }) {
  /** @param {string} name */
  const get = (name) => model.get(name);
  /** @param {string} name @returns {(value: number, done: boolean) => void} */
  const change = (name) => (value, done) => {
    model.set(name, value);
    if (done) model.save_changes();
  };
  /** @param {number} value @param {boolean} done */
  const move = (value, done) => change("apart")(within(value, -HALF, HALF), done);

  const web = draw("g", {});
  const arrowsHere = ["T", "G", "M"].map((north) => ({ north, ...northArrow(north) }));
  const here = slider(say("The place"), -HALF, HALF, grip());
  const wedge = draw("path", { class: "nav-quarter" });
  const atPlace = draw("g", {}, wedge, ...arrowsHere.map((one) => one.node));
  const drawing = drawingOf(540, web, atPlace, here);

  const toGrid = reading(say("convergence, from true to grid north"));
  const toMagnetic = reading(say("grid magnetic angle, from grid to magnetic north"));
  const sums = el("ul", { class: "nav-sums" });
  const places = el(
    "div",
    { class: "nav-ways", role: "group", "aria-label": say("Places") },
    ...get("places").map((/** @type {any} */ { name, lat, apart, variation }) =>
      button(name, () => {
        model.set({ lat, apart, variation });
        model.save_changes();
      }),
    ),
  );
  const east = angleControl(
    say("Longitude from the middle meridian"),
    { min: -HALF, max: HALF, step: 0.25, east: true },
    move,
  );
  const north = quantityControl(
    say("Latitude"),
    {
      min: -75,
      max: 75,
      step: 0.1,
      unit: "",
      heard: say("degrees"),
      say: latitude,
      write: latitude,
      read: latitudeRead,
    },
    change("lat"),
  );
  const variation = angleControl(
    say("Variation"),
    { min: -25, max: 25, step: 0.1, east: true },
    change("variation"),
  );
  const { node, sentence } = demoFrame(
    say("How the grid leans"),
    say("Meridians that lean together, an upright grid, and the norths at one place"),
    drawing,
    toGrid.node,
    toMagnetic.node,
    sums,
    places,
    east.node,
    north.node,
    variation.node,
  );

  /** @type {number | null} */
  let drawnFor = null;

  function show() {
    const [lat, apart] = [get("lat"), get("apart")];
    const convergence = convergenceAt(lat, apart);
    const gma = get("variation") - toNearest(convergence * 10, 1) / 10;
    const [x, y] = placing(lat)(lat, apart);
    if (drawnFor !== lat) web.replaceChildren(...lines(lat));
    drawnFor = lat;
    // On the map the grid is upright, so true north leans the other way than grid north from true.
    /** @type {Record<string, [number, number]>} */
    const stands = {
      T: [-convergence, 196],
      G: [0, 146],
      M: [get("variation") - convergence, 92],
    };
    for (const { north: one, aim } of arrowsHere) aim(...stands[one]);
    set(wedge, { d: wedgePath(178, 0, -convergence) });
    set(atPlace, { transform: `translate(${x} ${y})` });
    set(here, {
      transform: `translate(${x} ${y})`,
      "aria-valuenow": apart,
      "aria-valuetext": say("{apart} of the middle meridian, convergence {convergence}", {
        apart: eastWest(apart),
        convergence: leans(convergence),
      }),
    });
    toGrid.value.textContent = leans(convergence);
    toMagnetic.value.textContent = leans(gma);
    showLines(sums, [
      `${eastWest(apart)} × sin ${latitude(lat)} = ${leans(convergence)}`,
      say("{variation} less {convergence} = {gma}", {
        variation: eastWest(get("variation")),
        convergence: leans(convergence),
        gma: leans(gma),
      }),
    ]);
    east.show(apart);
    north.show(lat);
    variation.show(get("variation"));
    sentence.textContent = said(lat, apart, convergence);
  }

  slides(
    here,
    drawing,
    { from: (x) => (x / ACROSS) * HALF, now: () => get("apart"), step: 0.5, fine: 0.25 },
    move,
  );
  const watched = "change:lat change:apart change:variation";
  model.on(watched, show);
  root.append(node);
  show();
  return () => model.off(watched, show);
}

/** The grid, upright and dashed, and every meridian of a degree. @param {number} lat */
function lines(lat) {
  const parts = [];
  for (let x = -ACROSS; x <= ACROSS; x += ACROSS / 4) {
    parts.push(draw("path", { class: "nav-grid-line", d: `M${MIDDLE[0] + x} ${TOP}V${BOTTOM}` }));
  }
  for (let y = TOP; y <= BOTTOM; y += ACROSS / 4) {
    parts.push(
      draw("path", { class: "nav-grid-line", d: `M${MIDDLE[0] - ACROSS} ${y}H${MIDDLE[0] + ACROSS}` }),
    );
  }
  for (let apart = -HALF; apart <= HALF; apart++) {
    const middle = apart === 0 ? " nav-meridian-middle" : "";
    parts.push(draw("path", { class: `nav-meridian${middle}`, d: meridianPath(lat, apart) }));
  }
  parts.push(
    label(say("dashed: the map’s grid, upright"), 30, 496, { "text-anchor": "start" }),
    label(say("full: meridians, which run true north"), 30, 526, { "text-anchor": "start" }),
    label(say("middle meridian"), MIDDLE[0], 28, { class: "nav-strong" }),
  );
  return parts;
}

/** @param {number} lat @param {number} apart @param {number} convergence @returns {string} */
function said(lat, apart, convergence) {
  if (apart === 0) return say("On the middle meridian grid north is true north.");
  if (lat === 0) return say("On the equator the meridians run side by side: the grid does not lean at all.");
  const values = {
    apart: apart < 0 ? say("west") : say("east"),
    lean: convergence < 0 ? say("west") : say("east"),
  };
  return lat > 0
    ? say("You are {apart} of the middle meridian, so grid north lies {lean} of true north.", values)
    : say("South of the equator it is the other way: you are {apart} of the middle meridian, and grid north lies {lean} of true.", values);
}

export default { render };
