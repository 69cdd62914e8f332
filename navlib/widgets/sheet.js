// @ts-check
// What stands beside the words of a card: a sheet on the chart table, or a small table of figures.

/** @typedef {{caption: string, heads: string[], rows: string[][]}} Table */

/**
 * The sheet of a question, with its instruments.
 * @param {(large: boolean) => void} enlarge  called when the learner wants it larger or back
 * @param {() => void} [moved]  called when something on it was moved
 */
function sheetView(enlarge, moved = () => {}) {
  const figure = el("figure", { class: "nav-sheet" });
  let shown = "";
  /** @type {ReturnType<typeof chartTable> | null} */
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
    table = chartTable(picture, { moved, enlarge });
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
    /** @param {Record<string, any>} lies */
    lay: (lies) => table?.lay(lies),
  };
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
