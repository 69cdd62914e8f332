// @ts-check
// What the demonstrations share: sliders for angles, words for numbers, a frame round the figure.

/** @param {number} degrees east positive @returns {string} 4.5° W */
function eastWest(degrees) {
  const size = Math.abs(degrees);
  return size === 0 ? "0°" : `${size}° ${degrees > 0 ? "E" : "W"}`;
}

const DIGITS = say("zero one two three four five six seven eight nine").split(" ");

/** @param {number} degrees @returns {string} as it is said aloud: zero six zero */
const spoken = (degrees) => [...figures(degrees)].map((digit) => DIGITS[Number(digit)]).join(" ");

/**
 * The sum T - angle in words, with 360 put on or taken off where north is passed.
 * @param {number} from @param {number} angle east positive @param {string} north of the result
 */
function sum(from, angle, north) {
  const raw = from - angle;
  const past =
    raw >= 360
      ? say("{sum}, past north: take off 360", { sum: raw })
      : raw < 0
        ? say("{sum}, past north: add 360", { sum: raw })
        : "";
  const whole = wrap(raw);
  const written =
    whole % 1
      ? say("{exact}, written {bearing}", { exact: whole, bearing: bearing(whole, north) })
      : bearing(whole, north);
  const plain = angle < 0 ? `${from} + ${-angle}` : `${from} - ${angle}`;
  const steps = [`${from} - (${eastWest(angle)})`, plain, past, written];
  return steps.filter(Boolean).join(" = ").replaceAll("-", "−");
}

/**
 * Something in a drawing to be pulled, or moved by the arrow keys.
 * @param {string} how  a class that says which way
 * @param {string} name @param {number} min @param {number} max @param {...Node} inside
 */
const pulled = (how, name, min, max, ...inside) =>
  draw(
    "g",
    {
      class: `nav-turns ${how}`,
      tabindex: 0,
      role: "slider",
      "aria-orientation": how === "nav-upward" ? "vertical" : "horizontal",
      "aria-label": name,
      "aria-valuemin": min,
      "aria-valuemax": max,
    },
    ...inside,
  );

/** The mark that a bearing is taken of, to be carried round the middle. @param {number} [away]  above it */
const turnedMark = (away = 0) =>
  pulled(
    "",
    say("The mark"),
    0,
    359,
    draw("circle", { class: "nav-reach", cy: -away, r: 30 }),
    draw("path", { class: "nav-mark", d: `M0 ${-away - 16}l14 16l-14 16l-14 -16Z` }),
  );

/**
 * @param {string} id @param {{min: number, max: number, step: number}} range
 * @param {(value: number, done: boolean) => void} told  done is false while the slider moves
 * @returns {any} a slider
 */
function sliding(id, range, told) {
  const slider = el("input", {
    type: "range",
    id,
    ...range,
    input: () => told(Number(slider.value), false),
    change: () => told(Number(slider.value), true),
  });
  return slider;
}

/**
 * A slider and a number box for one angle; with `east` the box holds its size, and E or W beside.
 * @param {string} label
 * @param {{min: number, max: number, step: number, east?: boolean}} range
 * @param {(value: number, done: boolean) => void} told  done is false while the slider moves
 */
function angleControl(label, { min, max, step, east = false }, told) {
  const id = unique("angle");
  const slider = sliding(id, { min, max, step }, told);
  const size = el("input", {
    type: "number",
    "aria-label": say("{label}, degrees", { label }),
    step,
    min: east ? 0 : min,
    max: east ? Math.max(max, -min) : max,
    change: typed,
  });
  const side = el(
    "select",
    { "aria-label": say("{label}, east or west", { label }), change: typed },
    el("option", {}, "E"),
    el("option", {}, "W"),
  );
  let shown = 0;

  function typed() {
    const value = size.value === "" ? NaN : Number(size.value);
    const way = east && side.value === "W" ? -1 : 1;
    if (Number.isFinite(value)) told(Math.min(Math.max(way * value, min), max), true);
    show(shown);
  }

  /** @param {number} value */
  function show(value) {
    shown = value;
    slider.value = String(value);
    slider.setAttribute("aria-valuetext", east ? eastWest(value) : `${figures(value)}°`);
    size.value = String(east ? Math.abs(value) : value);
    if (value) side.value = value > 0 ? "E" : "W";
  }

  const node = el(
    "div",
    { class: "nav-control" },
    el("label", { for: id }, label),
    slider,
    el("span", { class: "nav-number" }, size, el("span", {}, "°"), east ? side : null),
  );
  return { node, show };
}

/**
 * A demonstration's frame: heading, drawing, what stands beside it, and one sentence below.
 * @param {string} name @param {string} label of the drawing @param {SVGSVGElement} drawing
 * @param {...Node} beside
 */
function demoFrame(name, label, drawing, ...beside) {
  const heading = unique("demo");
  set(drawing, { role: "group", "aria-label": label });
  const sentence = el("p", { class: "nav-sentence", "aria-live": "polite" });
  const node = el(
    "section",
    { class: "nav nav-demo nav-pictured nav-wide", "aria-labelledby": heading },
    el("div", { class: "nav-title", id: heading, role: "heading", "aria-level": 3 }, name),
    el(
      "div",
      { class: "nav-body" },
      el("div", { class: "nav-drawn" }, drawing),
      el("div", { class: "nav-ask" }, ...beside),
    ),
    sentence,
  );
  return { node, sentence };
}

/**
 * A value of the demonstration's, in large type with its name.
 * @param {string} name
 */
function reading(name) {
  const value = el("output", { class: "nav-value" });
  const more = el("span", { class: "nav-value-more" });
  return {
    node: el("p", { class: "nav-reading" }, el("span", {}, name), value, more),
    value,
    more,
  };
}

/**
 * A handle in a drawing that stands for an angle: dragged round a point, or by the arrow keys.
 * @param {any} handle @param {any} drawing @param {[number, number]} centre
 * @param {() => number} now @param {(value: number, done: boolean) => void} told
 */
function swings(handle, drawing, centre, now, told) {
  draggable(
    handle,
    drawing,
    (x, y) => told(Math.round(towards(...centre, x, y)) % 360, false),
    () => told(now(), true),
  );
  arrows(handle, (x, y, fine) => told(wrap(toNearest(now(), 1) + (x + y) * (fine ? 1 : 5)), true));
}
