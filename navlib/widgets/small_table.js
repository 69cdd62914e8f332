// @ts-check
// A small table of figures beside the words of a question.

/** @typedef {{caption: string, heads: string[], rows: string[][]}} Table */

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
