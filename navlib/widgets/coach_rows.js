// @ts-check
// The lists in the form of a paper: its questions, a line each, and its sheets.

/** @typedef {{topic: string, level: string, kinds: string[], marks: string, working: string,
 *   minutes: string}} DraftRow */
/** @typedef {{sheet: string, paper: string}} DraftSheet */
/** @typedef {{topic: string, title: string, kinds: {kind: string, title: string,
 *   level: number}[]}} Topic */
/** @typedef {{blueprints: {name: string, words: string}[], first: string, most: number,
 *   topics: Topic[], sheets: {sheet: string, words: string}[], papers: string[],
 *   sittings: {path: string, words: string}[], sitting: string,
 *   title: string, files: KeptFile[]}} PaperFace */

const CHOSEN = "chosen";

/**
 * A list whose lines can be added, moved and taken away, all by keyboard.
 * @template T
 * @param {{add: string, make: (line: T, changed: () => void) => {node: any, read: () => T,
 *   first: any}, fresh: (before: T | undefined) => T, what: (n: number) => string,
 *   changed: () => void, ordered?: boolean}} settings
 */
function listEditor({ add, make, fresh, what, changed, ordered = false }) {
  /** @typedef {{shell: any, part: ReturnType<typeof make>, wrong: any, up: any, down: any,
   *   away: any, number: any, more: any}} Line */
  /** @type {Line[]} */
  let lines = [];
  const list = el("ol", { class: "nav-lines-of" });
  const more = button(add, () => {
    put(fresh(lines.at(-1)?.part.read()));
    order();
    lines[lines.length - 1].part.first.focus();
    changed();
  });

  /** @param {T} value */
  function put(value) {
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
      shell: null,
    };
    const moves = ordered ? [line.up, line.down] : [];
    line.shell = el(
      "li",
      { role: "group" },
      el("div", { class: "nav-line" }, line.number, part.node, line.more, ...moves, line.away),
      line.wrong,
    );
    lines.push(line);
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

/** @param {PaperFace} face @param {() => void} changed */
function rowsEditor(face, changed) {
  /** @param {DraftRow} row */
  function make(row) {
    const topic = choice(
      face.topics.map((one) => [one.topic, one.title]),
      { "aria-label": say("Topic") },
    );
    const which = el("select", { "aria-label": say("Which questions") });
    const chosen = el("summary", {});
    ownKeys(chosen);
    const ticks = el("div", { class: "nav-kinds", role: "group" });
    set(ticks, { "aria-label": say("Kinds of question") });
    const kinds = el("details", { class: "nav-chosen", hidden: true }, chosen, ticks);
    /** @type {{box: any, kind: string, title: string}[]} */
    let boxes = [];
    const number = { inputmode: "decimal", class: "nav-figure" };
    const marks = textBox({ "aria-label": say("Marks"), ...number });
    const working = textBox({ "aria-label": say("Of these for working"), ...number });
    const minutes = textBox({ "aria-label": say("Minutes"), ...number });

    function sum() {
      kinds.hidden = which.value !== CHOSEN;
      const titles = boxes.filter((one) => one.box.checked).map((one) => one.title);
      chosen.textContent = titles.length ? titles.join(", ") : say("None is ticked yet");
    }

    /** @param {string} level @param {string[]} ticked */
    function fill(level, ticked) {
      const known = face.topics.find((one) => one.topic === topic.value)?.kinds ?? [];
      const levels = [...new Set(known.map((one) => one.level))];
      which.replaceChildren(
        ...levels.map((n) => {
          const count = known.filter((one) => one.level === n).length;
          const words = say("Level {n}, any of {count}", { n, count });
          return el("option", { value: String(n) }, words);
        }),
        el("option", { value: CHOSEN }, say("Chosen kinds")),
      );
      which.value = level || CHOSEN;
      if (which.selectedIndex < 0) which.selectedIndex = 0;
      const lines = known.map(({ kind, title, level: n }) => {
        const made = tick(`${"●".repeat(n)}${"○".repeat(3 - n)} ${title}`);
        made.box.checked = ticked.includes(kind);
        set(made.box, { "aria-label": say("Level {n}: {title}", { n, title }) });
        return { ...made, kind, title };
      });
      boxes = lines;
      ticks.replaceChildren(...lines.map((one) => one.node));
      sum();
    }

    topic.value = row.topic;
    fill(row.level, row.kinds);
    [marks.value, working.value, minutes.value] = [row.marks, row.working, row.minutes];
    topic.addEventListener("change", () => fill(which.value === CHOSEN ? "" : which.value, []));
    which.addEventListener("change", () => {
      sum();
      kinds.open = true;
    });
    ticks.addEventListener("change", sum);
    /** @param {string} words @param {any} box  the words are seen where there is no head above */
    const cell = (words, box) => el("label", { class: "nav-cell" }, el("span", {}, words), box);
    const node = el(
      "div",
      { class: "nav-row" },
      topic,
      which,
      cell(say("Marks"), marks),
      cell(say("working"), working),
      cell(say("Minutes"), minutes),
      kinds,
    );
    node.addEventListener("input", changed);
    return {
      node,
      first: topic,
      read: () => ({
        topic: topic.value,
        level: which.value === CHOSEN ? "" : which.value,
        kinds: boxes.filter((one) => one.box.checked).map((one) => one.kind),
        marks: marks.value,
        working: working.value,
        minutes: minutes.value,
      }),
    };
  }
  const plain = { level: "1", kinds: [], marks: "2", working: "0", minutes: "3" };
  const editor = listEditor({
    add: say("Add a question"),
    make,
    fresh: (before) => before ?? { topic: face.topics[0].topic, ...plain },
    what: (n) => say("question {n}", { n }),
    changed,
    ordered: true,
  });
  const heads = [
    say("Topic"),
    say("Which questions"),
    say("Marks"),
    say("working"),
    say("Minutes"),
    say("expected"),
  ];
  const head = el(
    "div",
    { class: "nav-row-heads", "aria-hidden": "true" },
    ...heads.map((words) => el("span", {}, words)),
  );
  editor.node.prepend(head);
  return editor;
}

/** @param {PaperFace} face @param {() => void} changed */
function sheetsEditor(face, changed) {
  /** @param {DraftSheet} sheet */
  function make(sheet) {
    const which = choice(
      face.sheets.map((one) => [one.sheet, one.words]),
      { "aria-label": say("Sheet") },
    );
    const paper = choice(
      face.papers.map((name) => [name, name]),
      { "aria-label": say("Size of paper") },
    );
    [which.value, paper.value] = [sheet.sheet, sheet.paper];
    const node = el("div", { class: "nav-sheet-line" }, which, paper);
    node.addEventListener("input", changed);
    return { node, first: which, read: () => ({ sheet: which.value, paper: paper.value }) };
  }
  return listEditor({
    add: say("Add a sheet"),
    make,
    fresh: () => ({ sheet: face.sheets[0].sheet, paper: face.papers[0] }),
    what: (n) => say("sheet {n}", { n }),
    changed,
  });
}
