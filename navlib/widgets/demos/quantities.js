// @ts-check
// What the demonstrations of time share: minutes and clock times in writing, sliders for quantities.

const HOUR = 60;
const DAY = 24 * HOUR;

/** @param {number} number @returns {string} with two figures: 08 */
const two = (number) => String(number).padStart(2, "0");

/** @param {number} minutes @returns {string} 1 h 08, or 45 min */
function duration(minutes) {
  const whole = toNearest(minutes, 1);
  const [hours, left] = [Math.floor(whole / HOUR), whole % HOUR];
  return hours ? `${hours} h ${two(left)}` : `${left} min`;
}

/** @param {number} minutes from any midnight @returns {string} as a clock shows it: 0033 */
function clock(minutes) {
  const today = ((toNearest(minutes, 1) % DAY) + DAY) % DAY;
  return two(Math.floor(today / HOUR)) + two(today % HOUR);
}

/** @param {string} text @returns {number} minutes from midnight, NaN if it is no clock time */
function clockRead(text) {
  const found = /^\s*(\d{1,2})[:. ]?([0-5]\d)\s*$/.exec(text);
  return found && Number(found[1]) < 24 ? Number(found[1]) * HOUR + Number(found[2]) : NaN;
}

/** @param {number} value @returns {string} with one decimal */
const tenths = (value) => toNearest(value, 0.1).toFixed(1);
/** @param {number} value */
const knots = (value) => `${tenths(value)} kn`;
/** @param {number} value */
const miles = (value) => `${tenths(value)} NM`;

/** @param {number} value @param {number} low @param {number} high */
const within = (value, low, high) => Math.min(Math.max(value, low), high);

/**
 * A slider and a box for one quantity.
 * @param {string} label
 * @param {{min: number, max: number, step: number, unit: string, say: (value: number) => string,
 *   write?: (value: number) => string, read?: (text: string) => number, heard?: string}} range
 *   say is what a screen reader hears, heard the unit's name where the unit is not shown; write and
 *   read are for a box that holds more than a number
 * @param {(value: number, done: boolean) => void} told  done is false while the slider moves
 */
function quantityControl(label, { min, max, step, unit, say: aloud, write, read, heard = unit }, told) {
  const id = unique("quantity");
  const slider = sliding(id, { min, max, step }, told);
  const box = el("input", {
    type: read ? "text" : "number",
    inputmode: read ? "numeric" : null,
    "aria-label": `${label}, ${heard}`,
    ...(read ? {} : { min, max, step }),
    change: typed,
  });
  let shown = min;

  function typed() {
    const value = read ? read(box.value) : box.value === "" ? NaN : Number(box.value);
    if (Number.isFinite(value)) told(within(value, min, max), true);
    show(shown);
  }

  /** @param {number} value */
  function show(value) {
    shown = value;
    slider.value = String(value);
    slider.setAttribute("aria-valuetext", aloud(value));
    box.value = write ? write(value) : String(toNearest(value * 10, 1) / 10);
  }

  const node = el(
    "div",
    { class: "nav-control" },
    el("label", { for: id }, label),
    slider,
    el("span", { class: "nav-number nav-quantity" }, box, el("span", {}, unit)),
  );
  return { node, show };
}

/**
 * Buttons of which one is pressed.
 * @param {string} label @param {[any, string][]} ways  value and word of each
 * @param {(value: any) => void} told
 */
function oneOf(label, ways, told) {
  const buttons = ways.map(([value, words]) => button(words, () => told(value)));
  const node = el("div", { class: "nav-ways", role: "group", "aria-label": label }, ...buttons);
  /** @param {any} now */
  function show(now) {
    for (const [n, [value]] of ways.entries()) {
      buttons[n].setAttribute("aria-pressed", String(value === now));
      buttons[n].classList.toggle("nav-first", value === now);
    }
  }
  return { node, show };
}

/** @param {HTMLElement} list @param {string[]} lines */
const showLines = (list, lines) =>
  list.replaceChildren(...lines.map((words) => el("li", {}, words)));

/**
 * A handle that slides along a drawing, by pointer or arrow keys.
 * @param {any} handle @param {any} drawing
 * @param {{from: (x: number) => number, now: () => number, step: number, fine: number}} scale  from
 *   gives the value at a place; an arrow key moves by step, with Shift by fine
 * @param {(value: number, done: boolean) => void} told
 */
function slides(handle, drawing, { from, now, step, fine }, told) {
  let grip = 0; // from where it is held to where it points
  draggable(
    handle,
    drawing,
    (x, _y, startX) => {
      told(toNearest(from(x - startX) - from(0) + grip, fine), false);
    },
    () => told(now(), true),
    () => (grip = now()),
  );
  arrows(handle, (x, y, less) => {
    const by = less ? fine : step;
    told(toNearest(now() + (x + y) * by, by), true);
  });
}
