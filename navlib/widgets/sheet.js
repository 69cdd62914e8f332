// @ts-check
// A drawn sheet in the page, with the instruments that lie on it.

/** @typedef {{svg: string, alt: string, width_mm: number, height_mm: number, tools?: string[]}} Picture */

/** @typedef {{caption: string, heads: string[], rows: string[][]}} Table */

const HOW_TO =
  "Drag the middle onto the point, lay N along the sheet’s north, swing the arm, and read the ring " +
  "where the arm crosses it. By keyboard: Tab to a part, then the arrow keys; hold Shift " +
  "for small steps.";

/**
 * The sheet and its buttons. `sheet.enlarge` is called when the learner wants it larger or back.
 * @param {(large: boolean) => void} enlarge
 */
function sheetView(enlarge) {
  const figure = el("figure", { class: "nav-sheet" });
  let shown = "";
  let address = "";

  /** @param {Picture | null} picture */
  function show(picture) {
    const now = JSON.stringify(picture);
    if (now === shown) return;
    shown = now;
    URL.revokeObjectURL(address);
    figure.replaceChildren();
    figure.hidden = !picture;
    if (!picture) return;
    const size = { width: picture.width_mm, height: picture.height_mm };
    // As an image the drawing runs no script, and its names cannot clash with another sheet's.
    address = URL.createObjectURL(new Blob([picture.svg], { type: "image/svg+xml" }));
    const stage = el(
      "div",
      { class: "nav-stage" },
      el("img", { src: address, alt: picture.alt, draggable: "false" }),
    );
    figure.style.setProperty("--nav-sheet-shape", String(size.width / size.height));
    const bar = el("div", { class: "nav-sheet-buttons" });
    let large = false;
    const larger = button("Enlarge the sheet", () => {
      large = !large;
      larger.textContent = large ? "Sheet back to its size" : "Enlarge the sheet";
      enlarge(large);
    });
    enlarge(false);
    const below = el("figcaption");
    if (picture.tools?.includes("protractor")) {
      const tool = protractor(size);
      stage.append(tool.node);
      const away = button("Put the protractor away", () => {
        const gone = stage.contains(tool.node);
        if (gone) tool.node.remove();
        else stage.append(tool.node);
        away.textContent = gone ? "Take the protractor" : "Put the protractor away";
        below.hidden = gone;
      });
      bar.append(away);
      below.append(HOW_TO);
    }
    bar.append(larger);
    figure.append(stage, bar, below);
  }

  return { node: figure, show, close: () => URL.revokeObjectURL(address) };
}

/**
 * With a picture a card takes all the width there is, and puts the words beside the picture.
 * @param {Element} card @param {boolean} pictured
 */
function showPictured(card, pictured) {
  for (const name of ["nav-pictured", "nav-wide"]) card.classList.toggle(name, pictured);
}

/**
 * A small table whose first column names its rows.
 * @param {Table | null | undefined} table @returns {HTMLElement[]}
 */
function tableView(table) {
  if (!table) return [];
  const heads = table.heads.map((head) => el("th", { scope: "col" }, head));
  const wordy = table.heads.slice(1).map((_, k) => table.rows.some((row) => /[a-z]{3}/i.test(row[k + 1])));
  const rows = table.rows.map(([name, ...cells]) =>
    el(
      "tr",
      {},
      el("th", { scope: "row" }, name),
      ...cells.map((cell, k) => el("td", wordy[k] ? { class: "nav-words" } : {}, cell)),
    ),
  );
  return [
    el(
      "div",
      { class: "nav-table" },
      el(
        "table",
        {},
        el("caption", {}, table.caption),
        el("thead", {}, el("tr", {}, ...heads)),
        el("tbody", {}, ...rows),
      ),
    ),
  ];
}
