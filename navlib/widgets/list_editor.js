// @ts-check
// A list in a form whose lines a person adds, moves and takes away.

/**
 * A list whose lines can be added, moved and taken away, all by keyboard.
 * @template T
 * @param {{add: string, make: (line: T, changed: () => void) => {node: any, read: () => T,
 *   first: any}, fresh: (before: T | undefined) => T, what: (n: number) => string,
 *   changed: () => void, ordered?: boolean, inserts?: boolean}} settings  `ordered`: lines can be
 *   moved; `inserts`: a line can be added after any other
 */
function listEditor({ add, make, fresh, what, changed, ordered = false, inserts = false }) {
  /** @typedef {{shell: any, part: ReturnType<typeof make>, wrong: any, up: any, down: any,
   *   away: any, after: any, number: any, more: any}} Line */
  /** @type {Line[]} */
  let lines = [];
  const list = el("ol", { class: "nav-lines-of" });
  const more = button(add, () => insert(lines.length));

  /** @param {number} at  where the new line will stand */
  function insert(at) {
    put(fresh(lines[at - 1]?.part.read()), at);
    order();
    lines[at].part.first.focus();
    changed();
  }

  /** @param {T} value @param {number} [at] */
  function put(value, at = lines.length) {
    const part = make(value, changed);
    const small = { class: "nav-button nav-small" };
    /** @type {Line} */
    const line = {
      part,
      number: el("span", { class: "nav-number", "aria-hidden": "true" }),
      more: el("span", { class: "nav-expected" }),
      wrong: el("p", { class: "nav-wrong-line", hidden: true }),
      up: button("↑", () => move(line, -1), small),
      down: button("↓", () => move(line, 1), small),
      away: button("×", () => remove(line), small),
      after: button("+", () => insert(lines.indexOf(line) + 1), small),
      shell: null,
    };
    const moves = [...(ordered ? [line.up, line.down] : []), ...(inserts ? [line.after] : [])];
    line.shell = el(
      "li",
      { role: "group" },
      el("div", { class: "nav-line" }, line.number, part.node, line.more, ...moves, line.away),
      line.wrong,
    );
    lines.splice(at, 0, line);
  }

  /** @param {Line} line @param {number} by */
  function move(line, by) {
    const at = lines.indexOf(line);
    if (!lines[at + by]) return;
    lines.splice(at, 1);
    lines.splice(at + by, 0, line);
    order();
    (by < 0 ? line.up : line.down).focus();
    changed();
  }

  /** @param {Line} line */
  function remove(line) {
    const at = lines.indexOf(line);
    lines.splice(at, 1);
    order();
    (lines[at] ?? lines[at - 1])?.away.focus() ?? more.focus();
    changed();
  }

  function order() {
    list.replaceChildren(...lines.map((line) => line.shell));
    for (const [n, line] of lines.entries()) {
      const name = what(n + 1);
      line.number.textContent = String(n + 1);
      set(line.shell, { "aria-label": name });
      set(line.up, { "aria-label": say("Move up: {name}", { name }), "aria-disabled": n === 0 });
      const last = n === lines.length - 1;
      set(line.down, { "aria-label": say("Move down: {name}", { name }), "aria-disabled": last });
      set(line.away, { "aria-label": say("Take away: {name}", { name }) });
      set(line.after, { "aria-label": say("Add one after {name}", { name }) });
    }
  }

  return {
    node: el("div", {}, list, more),
    read: () => lines.map((line) => line.part.read()),
    /** @param {T[]} values */
    write: (values) => {
      lines = [];
      for (const value of values) put(value);
      order();
    },
    /** @param {(n: number) => string} wrong @param {string[] | null} expected  null: as before */
    tell: (wrong, expected) => {
      for (const [n, line] of lines.entries()) {
        line.wrong.textContent = wrong(n + 1);
        line.wrong.hidden = !line.wrong.textContent;
        if (expected) line.more.textContent = expected[n] ?? "";
      }
    },
  };
}
