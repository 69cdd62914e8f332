// @ts-check
// What stands beside the words of a card: a sheet on the chart table.

/**
 * The sheet of a question, with its instruments.
 * @param {(large: boolean) => void} enlarge  called when the learner wants it larger or back
 * @param {() => void} [moved]  called when something on it was moved
 */
function sheetView(enlarge, moved = () => {}) {
  const figure = el("figure", { class: "nav-sheet" });
  let shown = "";
  /** @type {ReturnType<typeof workedOn> | null} */
  let table = null;

  /** @param {Picture | null} picture */
  function show(picture) {
    const now = JSON.stringify(picture);
    if (now === shown) return;
    shown = now;
    close();
    figure.replaceChildren();
    figure.hidden = !picture;
    if (!picture) return;
    enlarge(false);
    table = workedOn(picture, { moved, enlarge });
    figure.append(table.node);
  }

  function close() {
    table?.close();
    table = null;
  }

  return {
    node: figure,
    show,
    close,
    /** @returns {Record<string, any>} where the instruments lie */
    lies: () => table?.lies() ?? {},
    /** @param {Record<string, any>} lies @param {boolean} [glide]  whether they move there to be seen */
    lay: (lies, glide) => table?.lay(lies, glide),
    /** @param {boolean} over  whether the work on the sheet is over */
    done: (over) => table?.done?.(over),
    /** Let what is taken for the answer be seen on the sheet: the last thing drawn with this pencil.
     * @param {string} tool */
    take: (tool) => set(figure, { "data-answer": tool || null }),
    /** Draw where the right answers lie, as pencil lies.
     * @param {Record<string, any[]>} lies */
    key(lies) {
      const space = figure.querySelector(".nav-overlay");
      space?.querySelector(".nav-key")?.remove();
      const drawn = Object.values(lies).flat().map(keyMark);
      if (drawn.length) space?.append(draw("g", { class: "nav-key", "aria-hidden": "true" }, ...drawn));
    },
  };
}

/** @param {any} lie  of a mark, a line or a circle @returns {any} */
function keyMark({ x, y, r, x1, y1, x2, y2 }) {
  if (x1 !== undefined) return draw("line", { x1, y1, x2, y2 });
  if (r !== undefined) return draw("circle", { cx: x, cy: y, r });
  return draw(
    "g",
    { class: "nav-key-mark", transform: `translate(${x} ${y})` },
    draw("circle", { r: 3.2 }),
    draw("path", { d: "M-1.9 0H1.9M0 -1.9V1.9" }),
  );
}

/**
 * With a picture a card takes all the width there is, and puts the words beside the picture.
 * @param {Element} card @param {boolean} pictured
 */
function showPictured(card, pictured) {
  for (const name of ["nav-pictured", "nav-wide"]) card.classList.toggle(name, pictured);
}
