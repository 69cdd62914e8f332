// @ts-check
// Small parts that every widget's module uses; joined in front of it (see shown.py).

/** Angles ------------------------------------------------------------------------------------- */

/** @param {number} degrees @returns {number} the angle in [0, 360) */
const wrap = (degrees) => ((degrees % 360) + 360) % 360;

/** @param {number} degrees @returns {number} the angle in (-180, 180], clockwise positive */
const signed = (degrees) => 180 - wrap(180 - degrees);

/** @param {number} value @param {number} step @returns {number} rounded, a half going up */
const toNearest = (value, step) => Math.floor(value / step + 0.5) * step;

/** @param {number} degrees @returns {string} whole degrees in three figures: 042 */
const figures = (degrees) => String(wrap(toNearest(wrap(degrees), 1))).padStart(3, "0");

/** @param {number} degrees @param {string} north @returns {string} a bearing: 042°T */
const bearing = (degrees, north) => `${figures(degrees)}°${north}`;

/**
 * The point at a bearing and distance, in a picture whose y runs down.
 * @param {number} x @param {number} y @param {number} degrees @param {number} distance
 * @returns {[number, number]}
 */
function along(x, y, degrees, distance) {
  const turn = (degrees * Math.PI) / 180;
  return [x + distance * Math.sin(turn), y - distance * Math.cos(turn)];
}

/**
 * The bearing from one point of a picture to another, y running down.
 * @param {number} x @param {number} y @param {number} toX @param {number} toY
 */
const towards = (x, y, toX, toY) => wrap((Math.atan2(toX - x, y - toY) * 180) / Math.PI);

/** Elements ----------------------------------------------------------------------------------- */

/** @typedef {Record<string, string | number | boolean | null | undefined | EventListener>} Settings */

/**
 * @param {Element} node
 * @param {Settings} settings  attributes; a function listens for the event of its name; null and
 *   false leave the attribute out
 */
function set(node, settings) {
  for (const [name, value] of Object.entries(settings)) {
    if (typeof value === "function") node.addEventListener(name, value);
    else if (value === null || value === undefined || value === false) node.removeAttribute(name);
    else node.setAttribute(name, value === true ? "" : String(value));
  }
}

const FOCUSABLE = new Set(["button", "input", "select", "textarea"]);

/**
 * An element of the page. What can take the keyboard keeps JupyterLab's shortcuts away.
 * @param {string} tag @param {Settings} [settings] @param {...(Node | string | null)} inside
 * @returns {any}
 */
function el(tag, settings = {}, ...inside) {
  const node = document.createElement(tag);
  set(node, settings);
  if (FOCUSABLE.has(tag) || "tabindex" in settings) ownKeys(node);
  node.append(...inside.filter((part) => part !== null));
  return node;
}

/**
 * An element of a drawing.
 * @param {string} tag @param {Settings} [settings] @param {...(Node | string)} inside
 * @returns {any}
 */
function draw(tag, settings = {}, ...inside) {
  const node = document.createElementNS("http://www.w3.org/2000/svg", tag);
  set(node, settings);
  if ("tabindex" in settings) ownKeys(node);
  node.append(...inside);
  return node;
}

/** @param {Element} node */
const ownKeys = (node) => node.setAttribute("data-lm-suppress-shortcuts", "true");

/**
 * A text that a learner sees or hears, in the language of the page, with what it tells put in.
 * The first argument is always written out, so that a translator's list can be collected.
 * @param {string} text @param {Record<string, string | number>} [values] for the names in braces
 * @returns {string}
 */
const say = (text, values = {}) =>
  (TEXTS[text] ?? text).replace(/\{(\w+)\}/g, (whole, name) => String(values[name] ?? whole));

/** @param {string} text @returns {HTMLElement[]} its paragraphs, which blank lines part */
const paragraphs = (text) => text.split(/\n\s*\n/).map((words) => el("p", {}, words.trim()));

/** @param {string} words @param {() => void} press @param {Settings} [settings] */
const button = (words, press, settings = {}) =>
  el("button", { type: "button", class: "nav-button", click: press, ...settings }, words);

let numbered = 0;
/** @param {string} name @returns {string} a name that no other element has */
const unique = (name) => `nav-${name}-${++numbered}-${Math.random().toString(36).slice(2, 8)}`;

/** Handles ------------------------------------------------------------------------------------ */

/**
 * Let `node` be dragged. Positions are in the user units of `space`.
 * @param {any} node @param {any} space  the drawing
 * @param {(x: number, y: number, startX: number, startY: number) => void} move
 * @param {() => void} [done]  called when it is let go
 * @param {() => void} [start]
 */
function draggable(node, space, move, done = () => {}, start = () => {}) {
  /** @param {PointerEvent} event @returns {[number, number]} */
  const at = (event) => {
    const point = new DOMPoint(event.clientX, event.clientY);
    const { x, y } = point.matrixTransform(space.getScreenCTM().inverse());
    return [x, y];
  };
  /** @type {[number, number] | null} */
  let from = null;
  node.style.touchAction = "none";
  // Browsers heed it on parts of a drawing only if they are not inline.
  if (node instanceof SVGElement) node.style.display = "block";
  node.addEventListener("pointerdown", (/** @type {PointerEvent} */ event) => {
    if (event.button !== 0) return;
    event.preventDefault();
    event.stopPropagation();
    node.setPointerCapture(event.pointerId);
    from = at(event);
    start();
    (node.closest("[tabindex]") ?? node).focus({ preventScroll: true });
  });
  node.addEventListener("pointermove", (/** @type {PointerEvent} */ event) => {
    if (from) move(...at(event), ...from);
  });
  const end = () => {
    if (from) done();
    from = null;
  };
  node.addEventListener("pointerup", end);
  node.addEventListener("pointercancel", end);
}

/**
 * Let the arrow keys work a handle: right and up are more, left and down are less.
 * @param {any} node
 * @param {(x: number, y: number, fine: boolean) => void} move  x to the right, y up: -10 to 10
 * @param {() => void} [done]
 */
function arrows(node, move, done = () => {}) {
  /** @type {Record<string, [number, number]>} */
  const ways = {
    ArrowLeft: [-1, 0],
    ArrowRight: [1, 0],
    ArrowUp: [0, 1],
    ArrowDown: [0, -1],
    PageUp: [0, 10],
    PageDown: [0, -10],
  };
  node.addEventListener("keydown", (/** @type {KeyboardEvent} */ event) => {
    const way = ways[event.key];
    if (!way || event.ctrlKey || event.altKey || event.metaKey) return;
    event.preventDefault();
    event.stopPropagation();
    move(...way, event.shiftKey);
    done();
  });
}
