// @ts-check
// The sheet on the table: drawn once, looked at as near as one likes, instruments over it.

/** @typedef {{svg: string, alt: string, width_mm: number, height_mm: number, tools?: string[],
 *   deck?: Deck}} Picture */
/** @typedef {{width: number, height: number}} Size */
/** What is seen of the sheet, mm from its upper left corner.
 * @typedef {{left: number, top: number, right: number, bottom: number}} Seen */

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
  // The sheet says so itself, in a band that may be out of sight.
  const caution = el("div", { class: "nav-stage-caution" }, say("For training, not for navigation."));
  const leaf = el("div", { class: "nav-sheet-leaf" }, el("div", { class: "nav-sheet-cut" }, image), space);
  const node = el(
    "div",
    {
      class: "nav-stage",
      tabindex: 0,
      role: "group",
      "aria-label": say("Sheet. Plus and minus: closer and further. Arrow keys: move it."),
    },
    leaf,
    caution,
  );
  node.style.setProperty("--nav-sheet-shape", String(size.width / size.height));
  /** What can be seen of the sheet at all: the rest of it is folded away. @type {Seen} */
  let fold = { left: 0, top: 0, right: size.width, bottom: size.height };
  /** How large the sheet is in its place, where 1 fills it. */
  let share = 1;
  let zoom = 1;
  /** The magnification at which the browser last drew the sheet sharp. */
  let sharp = 1;
  let left = 0;
  let top = 0;
  let settling = 0;

  /** @returns {Size} how much of it there is in sight */
  const looking = () => ({ width: (fold.right - fold.left) / zoom, height: (fold.bottom - fold.top) / zoom });

  /** @returns {Seen} */
  const seen = () => ({
    left,
    top,
    right: left + looking().width,
    bottom: top + looking().height,
  });

  /** @returns {boolean} whether all of the sheet is in sight */
  const whole = () => looking().width >= size.width && looking().height >= size.height;

  function show() {
    const { width, height } = looking();
    caution.hidden = whole();
    left = within(left, fold.left, fold.right - width);
    top = within(top, fold.top, fold.bottom - height);
    const [x, y] = [left / size.width, top / size.height].map((part) => part * 100);
    const large = (/** @type {number} */ all, /** @type {number} */ some) => `${(all / some / zoom) * sharp * 100}%`;
    image.style.width = large(size.width, width);
    image.style.height = large(size.height, height);
    const grown = zoom / sharp;
    image.style.transform =
      `translate(${-x * grown}%, ${-y * grown}%)` + (zoom === sharp ? "" : ` scale(${grown})`);
    space.setAttribute("viewBox", `${left} ${top} ${width} ${height}`);
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
    const width = node.clientWidth * share;
    if (width) space.style.setProperty("--per-px", String(looking().width / width));
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
    const { x, y } = new DOMPoint(clientX, clientY).matrixTransform(space.getScreenCTM().inverse());
    return [x, y];
  }

  /**
   * Fold the sheet so that this much of it is in sight.
   * @param {Seen} next
   */
  function foldTo(next) {
    fold = next;
    [left, top, zoom, sharp] = [next.left, next.top, 1, 1];
    node.style.setProperty("--nav-sheet-shape", String((next.right - next.left) / (next.bottom - next.top)));
    show();
    looked();
  }

  /**
   * Let the sheet lie turned in its place, and a little shifted (parts of its width and height).
   * @param {number} degrees @param {number} right @param {number} down
   */
  function turnTo(degrees, right, down) {
    const [sin, cos] = [Math.abs(Math.sin((degrees * Math.PI) / 180)), Math.cos((degrees * Math.PI) / 180)];
    const { width, height } = looking();
    share = 0.95 / Math.max(cos + (height / width) * sin, cos + (width / height) * sin);
    leaf.style.transform =
      `translate(${right * 100}%, ${down * 100}%) rotate(${degrees}deg) scale(${share})`;
    measure();
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
    whole,
    foldTo,
    turnTo,
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
