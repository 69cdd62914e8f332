// @ts-check
// What the hand does with any instrument: takes a part of it, by mouse, finger or keys.

/** The table an instrument lies on: `space` is the drawing that counts in mm of sheet, `moved` is
 * called when a movement ends, `keyed` being true if keys did it.
 * @typedef {{size: Size, space: any, seen: () => Seen, moved: (keyed?: boolean) => void,
 *   edges: () => Edge[], focus: (node: any) => void}} Top */
/** @typedef {[number, number]} Spot  mm of sheet */
/** @typedef {[Spot, Spot]} Edge  a straight edge that guides the pencil */

/** Every instrument has this shape. `lie` is where it lies, in mm of sheet and degrees, or null
 * when nothing of it does; `panel` holds its own buttons, `seen` is called when the view changes.
 * @typedef {{node: any, lie: () => any, lay: (lie: any) => void, spoken: () => string,
 *   how: string, take?: () => void, panel?: any, seen?: () => void, edges?: () => Edge[]}} Instrument */

/** @param {number} value @returns {number} to 0.01: finer than any pencil */
const fine = (value) => Math.round(value * 100) / 100;

/** @param {boolean} small @returns {number} mm or degrees that an arrow key moves */
const stride = (small) => (small ? 0.1 : 1);

/** @param {Spot} spot @param {Size} size @returns {Spot} the nearest spot on the sheet */
const onSheet = ([x, y], size) => [within(x, 0, size.width), within(y, 0, size.height)];

/** @param {Seen} seen @returns {Spot} */
const middleOf = (seen) => [(seen.left + seen.right) / 2, (seen.top + seen.bottom) / 2];

/** @param {Spot} a @param {Spot} b */
const span = (a, b) => Math.hypot(b[0] - a[0], b[1] - a[1]);

/** @param {Spot} spot @returns {{across: number, down: number}} whole mm, for the ear */
const mm = ([x, y]) => ({ across: Math.round(x), down: Math.round(y) });

/** @param {Spot} spot @returns {string} */
const spokenSpot = (spot) => say("{across} mm across, {down} mm down", mm(spot));

/**
 * A part of an instrument that the hand takes.
 * @param {Top} top
 * @param {string} words  what it is called
 * @param {{drag: (x: number, y: number, fromX: number, fromY: number) => void, start?: () => void,
 *   keys: (x: number, y: number, small: boolean) => void, press?: (back: boolean) => void}} does
 * @param {Settings} more
 * @param {...any} inside
 */
function part(top, words, does, more, ...inside) {
  const settings = { class: "nav-handle", tabindex: 0, "aria-label": words, ...more };
  const node = draw("g", settings, ...inside);
  draggable(node, top.space, does.drag, () => top.moved(), does.start);
  arrows(node, does.keys, () => top.moved(true));
  if (does.press) pressable(node, does.press);
  return node;
}

/** @param {any} node @param {(back: boolean) => void} press  by Enter or the space bar */
function pressable(node, press) {
  node.addEventListener("keydown", (/** @type {KeyboardEvent} */ event) => {
    if (event.key !== "Enter" && event.key !== " ") return;
    event.preventDefault();
    event.stopPropagation();
    press(event.shiftKey);
  });
}

/** @param {any} node @param {() => void} press  by Delete or Backspace */
function deletable(node, press) {
  node.addEventListener("keydown", (/** @type {KeyboardEvent} */ event) => {
    if (event.key !== "Delete" && event.key !== "Backspace") return;
    event.preventDefault();
    event.stopPropagation();
    press();
  });
}

/**
 * A point that is moved over the sheet.
 * @param {Top} top @param {string} words
 * @param {() => Spot} at @param {(spot: Spot) => void} put  where it stands, and moving it
 * @param {Settings} more @param {...any} inside
 */
function pointPart(top, words, at, put, more, ...inside) {
  /** @type {Spot} */
  let begun = [0, 0];
  return part(
    top,
    words,
    {
      start: () => {
        begun = at();
      },
      drag: (x, y, fromX, fromY) => put([begun[0] + x - fromX, begun[1] + y - fromY]),
      keys: (x, y, small) => {
        const [nowX, nowY] = at();
        put([nowX + x * stride(small), nowY - y * stride(small)]);
      },
    },
    { role: "group", "aria-roledescription": say("movable point"), ...more },
    ...inside,
  );
}

/**
 * A part that turns something: by hand about a pivot, by keys a degree at a time.
 * @param {Top} top @param {string} words
 * @param {() => Spot} pivot @param {(degrees: number) => void} turn  by so much since `start`
 * @param {() => void} start
 * @param {...any} inside
 */
function turnPart(top, words, pivot, turn, start, ...inside) {
  return part(
    top,
    words,
    {
      start,
      drag: (x, y, fromX, fromY) =>
        turn(signed(towards(...pivot(), x, y) - towards(...pivot(), fromX, fromY))),
      keys: (x, y, small) => {
        start();
        turn((x + y) * stride(small));
      },
    },
    { role: "slider", "aria-valuemin": 0, "aria-valuemax": 359 },
    ...inside,
  );
}

/** @param {any} node @param {number} degrees */
function setValue(node, degrees) {
  node.setAttribute("aria-valuenow", String(Math.round(wrap(degrees)) % 360));
}

/** @param {...any} inside @returns {any} a drawing in pixels of the screen, however near one looks */
const inPixels = (...inside) => draw("g", { class: "nav-px" }, ...inside);

/** @param {number} [r] @returns {any} room for a finger, nothing to be seen */
const hit = (r = 15) => draw("circle", { class: "nav-hit", r });

/** @returns {any} a small cross in a ring: the very spot is in its middle */
const hubMark = () =>
  inPixels(
    hit(),
    draw("circle", { class: "nav-hub", r: 8 }),
    draw("path", { class: "nav-hub-cross", d: "M-14 0H-2.5M2.5 0H14M0 -14V-2.5M0 2.5V14" }),
  );

/** @returns {any} a ribbed grip, long side across */
const gripMark = () =>
  inPixels(
    hit(),
    draw("rect", { class: "nav-grip", x: -14, y: -6, width: 28, height: 12, rx: 6 }),
    draw("path", { class: "nav-grip-mark", d: "M-5 -3V3M0 -3V3M5 -3V3" }),
  );

/** @param {string} [figure] @returns {any} a round knob */
const knobMark = (figure = "") => {
  const text = draw("text", { class: "nav-knob-figure", y: 4 }, figure);
  return inPixels(hit(), draw("circle", { class: "nav-knob", r: 9 }), text);
};

/**
 * How far out along a line its knob stands: at `wanted`, or nearer so that it is in sight.
 * @param {Spot} from @param {number} degrees @param {number} wanted @param {Seen} seen
 */
function knobDistance([x, y], degrees, wanted, seen) {
  const [dx, dy] = along(0, 0, degrees, 1);
  const room = (
    /** @type {number} */ at,
    /** @type {number} */ way,
    /** @type {number} */ low,
    /** @type {number} */ high,
  ) => (way > 1e-9 ? (high - at) / way : way < -1e-9 ? (at - low) / -way : Infinity);
  const edge = Math.min(room(x, dx, seen.left, seen.right), room(y, dy, seen.top, seen.bottom));
  return Math.max(Math.min(wanted, edge - (seen.right - seen.left) * 0.025), 7);
}

/** @param {any} node @param {number} x @param {number} y @param {number} [turn] */
const placeAt = (node, x, y, turn = 0) =>
  node.setAttribute("transform", `translate(${x} ${y})${turn ? ` rotate(${turn})` : ""}`);
