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
