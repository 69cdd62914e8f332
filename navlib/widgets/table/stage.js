// @ts-check
// The sheet on the table: drawn once, looked at as near as one likes, instruments over it.

/** @typedef {{svg: string, alt: string, width_mm: number, height_mm: number, tools?: string[]}} Picture */
/** @typedef {{width: number, height: number}} Size */
/** What is seen of the sheet, mm from its upper left corner.
 * @typedef {{left: number, top: number, right: number, bottom: number}} Seen */
/** Who takes a stroke of the pencil on the bare sheet, in mm.
 * @typedef {{down: (x: number, y: number) => void, move: (x: number, y: number) => void,
 *   up: () => void, stop: () => void}} Stroke */

const NEAREST = 8;
const CLOSER = 1.5;
const SETTLE_MS = 140;

/** @param {number} value @param {number} low @param {number} high */
const within = (value, low, high) => Math.min(Math.max(value, low), high);

/**
 * A sheet that can be looked at closer and moved, with a drawing over it that counts in mm of sheet.
 * @param {Picture} picture
 * @param {() => void} looked  called when another part of the sheet is seen
 */
function stage(picture, looked) {
  const size = { width: picture.width_mm, height: picture.height_mm };
  // As an image the drawing runs no script, and its names cannot clash with another sheet's.
  const address = URL.createObjectURL(new Blob([picture.svg], { type: "image/svg+xml" }));
  const image = el("img", { src: address, alt: picture.alt, draggable: "false" });
  const space = draw("svg", { class: "nav-overlay" });
  const node = el(
    "div",
    {
      class: "nav-stage",
      tabindex: 0,
      role: "group",
      "aria-label": say("Sheet. Plus and minus: closer and further. Arrow keys: move it."),
    },
    image,
    space,
  );
  node.style.setProperty("--nav-sheet-shape", String(size.width / size.height));
  let zoom = 1;
  /** The magnification at which the browser last drew the sheet sharp. */
  let sharp = 1;
  let left = 0;
  let top = 0;
  let settling = 0;

  /** @returns {Seen} */
  const seen = () => ({
    left,
    top,
    right: left + size.width / zoom,
    bottom: top + size.height / zoom,
  });

  function show() {
    left = within(left, 0, size.width * (1 - 1 / zoom));
    top = within(top, 0, size.height * (1 - 1 / zoom));
    const [x, y] = [left / size.width, top / size.height].map((part) => part * zoom * 100);
    image.style.width = image.style.height = `${sharp * 100}%`;
    image.style.transform =
      `translate(${-x / sharp}%, ${-y / sharp}%)` + (zoom === sharp ? "" : ` scale(${zoom / sharp})`);
    space.setAttribute("viewBox", `${left} ${top} ${size.width / zoom} ${size.height / zoom}`);
    node.style.touchAction = zoom > 1 ? "none" : "pan-x pan-y";
    node.classList.toggle("nav-closer", zoom > 1);
    measure();
    window.clearTimeout(settling);
    // Drawing the sheet anew takes longer than a frame: it waits until the hand rests.
    if (zoom !== sharp) settling = window.setTimeout(settle, SETTLE_MS);
  }

  function settle() {
    sharp = zoom;
    show();
    looked();
  }

  /** Tell the style how many mm of sheet a pixel is, so that grips stay as large as a finger. */
  function measure() {
    const width = node.clientWidth;
    if (width) space.style.setProperty("--per-px", String(size.width / zoom / width));
  }

  /**
   * Look closer or from further away; what lies under the spot (mm) stays where it is.
   * @param {number} wanted @param {number} [x] @param {number} [y]
   */
  function look(wanted, x = (seen().left + seen().right) / 2, y = (seen().top + seen().bottom) / 2) {
    const next = within(wanted, 1, NEAREST);
    left = x - ((x - left) * zoom) / next;
    top = y - ((y - top) * zoom) / next;
    zoom = next;
    show();
    looked();
  }

  /** @param {number} x @param {number} y  mm of sheet */
  function shift(x, y) {
    left += x;
    top += y;
    show();
    looked();
  }

  /** @param {number} clientX @param {number} clientY @returns {[number, number]} mm of sheet */
  function spot(clientX, clientY) {
    const box = node.getBoundingClientRect();
    const [px, py] = [(clientX - box.left) / box.width, (clientY - box.top) / box.height];
    return [left + (px * size.width) / zoom, top + (py * size.height) / zoom];
  }

  hands(node, { look, shift, spot, zoom: () => zoom });
  pen(space, size, spot);
  const watch = new ResizeObserver(measure);
  watch.observe(node);
  show();
  return {
    node,
    space,
    size,
    seen,
    look,
    zoom: () => zoom,
    close() {
      watch.disconnect();
      window.clearTimeout(settling);
      URL.revokeObjectURL(address);
    },
  };
}

/**
 * Hands on the bare sheet: one moves it, two also bring it closer; so do wheel and keys.
 * @param {any} node
 * @param {{look: (wanted: number, x?: number, y?: number) => void, zoom: () => number,
 *   shift: (x: number, y: number) => void, spot: (x: number, y: number) => [number, number]}} sheet
 */
function hands(node, { look, shift, spot, zoom }) {
  /** @type {Map<number, PointerEvent>} */
  const down = new Map();
  let pair = { x: 0, y: 0, apart: 0 };
  const together = () => {
    const [a, b] = [...down.values()];
    const apart = Math.hypot(a.clientX - b.clientX, a.clientY - b.clientY);
    return { x: (a.clientX + b.clientX) / 2, y: (a.clientY + b.clientY) / 2, apart };
  };
  const from = (/** @type {number} */ x, /** @type {number} */ y) => spot(x, y);

  /** @param {PointerEvent} event */
  function pressed(event) {
    if (event.pointerType !== "touch") return;
    down.set(event.pointerId, event);
    if (down.size !== 2) return;
    event.stopPropagation();
    event.preventDefault();
    // What the first finger held stays where it is now.
    const [first] = down.values();
    const drop = { pointerId: first.pointerId, bubbles: true };
    first.target?.dispatchEvent(new PointerEvent("pointercancel", drop));
    down.set(first.pointerId, first);
    pair = together();
  }

  /** @param {PointerEvent} event */
  function moved(event) {
    if (!down.has(event.pointerId)) return;
    down.set(event.pointerId, event);
    if (down.size !== 2) return;
    event.stopPropagation();
    const now = together();
    const [x, y] = from(pair.x, pair.y);
    look((zoom() * now.apart) / pair.apart, x, y);
    const [toX, toY] = from(now.x, now.y);
    shift(x - toX, y - toY);
    pair = now;
  }

  /** @param {PointerEvent} event */
  const lifted = (event) => down.delete(event.pointerId);

  node.addEventListener("pointerdown", pressed, true);
  node.addEventListener("pointermove", moved, true);
  for (const end of ["pointerup", "pointercancel"]) node.addEventListener(end, lifted, true);

  /** @type {[number, number] | null} */
  let held = null;
  node.addEventListener("pointerdown", (/** @type {PointerEvent} */ event) => {
    if (event.button !== 0 || down.size > 1 || zoom() === 1) return;
    node.setPointerCapture(event.pointerId);
    held = spot(event.clientX, event.clientY);
  });
  node.addEventListener("pointermove", (/** @type {PointerEvent} */ event) => {
    if (!held || down.size > 1) return;
    const [x, y] = spot(event.clientX, event.clientY);
    shift(held[0] - x, held[1] - y);
  });
  for (const end of ["pointerup", "pointercancel"]) {
    node.addEventListener(end, () => {
      held = null;
    });
  }
  node.addEventListener(
    "wheel",
    (/** @type {WheelEvent} */ event) => {
      if (!event.ctrlKey) return;
      event.preventDefault();
      look(zoom() * Math.exp(-event.deltaY / 300), ...spot(event.clientX, event.clientY));
    },
    { passive: false },
  );
  node.addEventListener("keydown", (/** @type {KeyboardEvent} */ event) => {
    if (event.ctrlKey || event.altKey || event.metaKey) return;
    if (event.key === "+" || event.key === "=") look(zoom() * CLOSER);
    else if (event.key === "-") look(zoom() / CLOSER);
    else if (event.key === "0") look(1);
    else return;
    event.preventDefault();
    event.stopPropagation();
  });
  const bare = { ...arrowStep };
  node.addEventListener("keydown", (/** @type {KeyboardEvent} */ event) => {
    const way = bare[event.key];
    if (!way || event.target !== node || zoom() === 1 || event.ctrlKey) return;
    event.preventDefault();
    event.stopPropagation();
    const step = (event.shiftKey ? 2 : 12) / zoom();
    shift(way[0] * step, way[1] * step);
  });
}

/** @type {Record<string, [number, number]>} */
const arrowStep = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

/**
 * A clear leaf over everything while the pencil is in the hand: it takes the next stroke.
 * `space.arm(stroke)` takes the pencil up, `space.arm(null)` lays it down.
 * @param {any} space @param {Size} size @param {(x: number, y: number) => [number, number]} spot
 */
function pen(space, size, spot) {
  const leaf = draw("rect", { class: "nav-leaf", width: size.width, height: size.height });
  /** @type {Stroke | null} */
  let stroke = null;
  let drawing = false;
  leaf.style.touchAction = "none";
  leaf.style.display = "block";
  leaf.addEventListener("pointerdown", (/** @type {PointerEvent} */ event) => {
    if (event.button !== 0) return;
    event.preventDefault();
    event.stopPropagation();
    leaf.setPointerCapture(event.pointerId);
    drawing = true;
    stroke?.down(...spot(event.clientX, event.clientY));
  });
  leaf.addEventListener("pointermove", (/** @type {PointerEvent} */ event) => {
    if (drawing) stroke?.move(...spot(event.clientX, event.clientY));
  });
  for (const end of ["pointerup", "pointercancel"]) {
    leaf.addEventListener(end, () => {
      if (drawing) stroke?.up();
      drawing = false;
    });
  }
  /** @param {Stroke | null} next */
  space.arm = (next) => {
    const old = stroke;
    stroke = next;
    drawing = false;
    if (next) space.append(leaf);
    else leaf.remove();
    if (old && old !== next) old.stop();
  };
}
