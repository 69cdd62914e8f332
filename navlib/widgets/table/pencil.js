// @ts-check
// Pencil: lines between two ends and marks, each with what is written beside it; and the eraser.

/** @typedef {{x1: number, y1: number, x2: number, y2: number, label: string}} LineLie */
/** @typedef {{x: number, y: number, label: string}} MarkLie */

const LABEL_LENGTH = 24;

/**
 * What lines and marks share: a list of things drawn, one of them in hand, its words, rubbing out.
 * @param {Top} top
 * @param {string} name  for the style
 * @param {string} called
 * @param {(top: Top, drawn: any, held: () => void) => any} make  one thing: {node, show}
 * @param {{label: string, rub: string, how: string, spoken: (drawn: any) => string}} words
 */
function pencilled(top, name, called, make, words) {
  /** @type {any[]} */
  let things = [];
  /** @type {any} */
  let inHand = null;
  const node = draw("g", { class: `nav-pencilled ${name}`, role: "group", "aria-label": called });
  const box = el("input", {
    type: "text",
    maxlength: LABEL_LENGTH,
    "aria-label": words.label,
    placeholder: words.label,
    autocomplete: "off",
    input: () => {
      if (!inHand) return;
      inHand.drawn.label = box.value;
      inHand.show();
    },
    change: () => top.moved(),
  });
  const rubIt = button(words.rub, () => inHand && rub(inHand));
  const panel = el("span", { class: "nav-panel" }, box, rubIt);
  panel.hidden = true;

  /** @param {any} thing */
  function hold(thing) {
    inHand = thing;
    box.value = thing?.drawn.label ?? "";
    panel.hidden = !thing;
  }

  /** @param {any} drawn */
  function add(drawn) {
    const thing = { drawn, rub: () => rub(thing), ...make(top, drawn, () => hold(thing)) };
    things.push(thing);
    node.append(thing.node);
    for (const handle of thing.node.querySelectorAll(".nav-handle")) deletable(handle, thing.rub);
    thing.show();
    return thing;
  }

  /** @param {any} thing */
  function rub(thing) {
    things = things.filter((one) => one !== thing);
    thing.node.remove();
    hold(things.at(-1) ?? null);
    top.moved();
    top.focus(things.at(-1)?.node.querySelector(".nav-handle"));
  }

  return {
    node,
    panel,
    add,
    hold,
    things: () => things,
    rubbing: () => things,
    spoken: () => things.map(({ drawn }) => words.spoken(drawn)).join(" "),
    how: words.how,
    lie: () => (things.length ? things.map(({ drawn }) => tidy(drawn)) : null),
    /** @param {any[] | null} lies */
    lay(lies) {
      const same = lies?.length === things.length;
      if (same) {
        for (const [n, lie] of (lies ?? []).entries()) Object.assign(things[n].drawn, lie);
        for (const thing of things) thing.show();
      } else {
        node.replaceChildren();
        things = [];
        for (const lie of lies ?? []) add({ label: "", ...lie });
      }
      hold(things.at(-1) ?? null);
    },
  };
}

/** What was drawn out shorter than this is rubbed out again, mm. */
const SHORTEST_MM = 1;

/**
 * Let the hand draw a thing out: it begins where the sheet is pressed and ends where it is let go.
 * @param {Top} top
 * @param {ReturnType<typeof pencilled>} all
 * @param {(from: Spot) => any} begin  what lies there at first
 * @param {(drawn: any, from: Spot, to: Spot) => void} reach
 * @param {(drawn: any) => number} length  of what is drawn, mm
 */
function drawnOut(top, all, begin, reach, length) {
  /** @type {any} */
  let thing = null;
  /** @type {Spot} */
  let from = [0, 0];
  top.space.arm({
    down(/** @type {number} */ x, /** @type {number} */ y) {
      from = onSheet([x, y], top.size);
      thing = all.add({ ...begin(from), label: "" });
    },
    move(/** @type {number} */ x, /** @type {number} */ y) {
      reach(thing.drawn, from, onSheet([x, y], top.size));
      thing.show();
    },
    up() {
      if (length(thing.drawn) < SHORTEST_MM) return thing.rub();
      top.space.arm(null);
      top.moved();
      all.hold(thing);
      top.focus([...thing.node.querySelectorAll(".nav-handle")].at(-1));
    },
    stop() {},
  });
}

/** @param {Record<string, any>} drawn */
const tidy = (drawn) =>
  Object.fromEntries(Object.entries(drawn).map(([k, v]) => [k, typeof v === "number" ? fine(v) : v]));

/** @param {number} size @returns {any} words beside something drawn */
const pencilWords = (size) => draw("text", { class: "nav-pencil-words", "font-size": size });

/** How near the eraser must come, mm. */
const RUBBED_MM = 3;

/** @param {any} drawn @param {Spot} spot @returns {number} mm from a pencil line or mark */
function offDrawn(drawn, spot) {
  if ("r" in drawn) return Math.abs(span([drawn.x, drawn.y], spot) - drawn.r);
  if (!("x1" in drawn)) return span([drawn.x, drawn.y], spot);
  const [a, b] = /** @type {Spot[]} */ ([
    [drawn.x1, drawn.y1],
    [drawn.x2, drawn.y2],
  ]);
  const way = [b[0] - a[0], b[1] - a[1]];
  const far = way[0] ** 2 + way[1] ** 2 || 1;
  const t = within(((spot[0] - a[0]) * way[0] + (spot[1] - a[1]) * way[1]) / far, 0, 1);
  return span([a[0] + t * way[0], a[1] + t * way[1]], spot);
}
