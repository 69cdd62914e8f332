// @ts-check
// The question card. It knows nothing about marking: it shows a face and tells what is done.

/** @typedef {{title: string, place?: string, level: number, text: string, table?: Table | null,
 *   parts: Part[], feedback: null | {parts: Record<string, Judged>, summary: string}, hints: string[],
 *   hints_left: number, working: string[] | null, actions: [string, string][], standing: string,
 *   progress: null | {done: number, of: number}, note: string, lies: Record<string, any>,
 *   key: Record<string, any[]>}} Face */
/** @typedef {ReturnType<typeof answerPart>} AnswerPart */

/** The action that hands an answer in; where it is not offered, what is written stands. */
const CHECK = "check";

const LEVELS = 3;
const SLOW_MS = 4000;

/** @param {number} level @returns {string} */
const levelWords = (level) => say("Level {level} of {levels}", { level, levels: LEVELS });

/** @param {{model: any, el: HTMLElement}} context */
function render({ model, el: root }) {
  /** @type {Face} */
  let face = {
    title: "",
    level: 1,
    text: "",
    parts: [],
    feedback: null,
    hints: [],
    hints_left: 0,
    working: null,
    actions: [],
    standing: "",
    progress: null,
    note: "",
    lies: {},
    key: {},
  };
  let key = "";
  /** @type {AnswerPart[]} */
  let parts = [];
  /** @type {Record<string, string>} what the boxes were last set to, or last sent */
  let known = {};
  /** @type {null | {turn: string, action: string, before: Face, key: string}} */
  let waiting = null;
  let slow = 0;

  const heading = unique("card");
  const title = el("div", { class: "nav-title", id: heading, role: "heading", "aria-level": 3 });
  const level = el("span", { class: "nav-level", role: "img" });
  const standing = el("span", { class: "nav-standing" });
  const progress = el("progress", { class: "nav-progress", hidden: true });
  const text = el("div", { class: "nav-text" });
  const form = el("div", { class: "nav-parts" });
  const summary = el("p", { class: "nav-summary", tabindex: -1, hidden: true });
  const hints = el("ol", { class: "nav-hints", "aria-label": say("Hints"), hidden: true });
  const working = el("div", {
    class: "nav-working",
    tabindex: -1,
    role: "group",
    "aria-label": say("Worked solution"),
    hidden: true,
  });
  const actions = el("div", { class: "nav-actions" });
  const trouble = el("p", { class: "nav-trouble", role: "alert", hidden: true });
  const note = el("p", { class: "nav-note-line", hidden: true });
  const live = el("div", { class: "nav-live", role: "status", "aria-live": "polite" });
  const card = el("section", { class: "nav nav-card", "aria-labelledby": heading });
  const sheet = sheetView(
    (large) => card.classList.toggle("nav-large", large),
    () => {
      keep("lies", key, sheet.lies());
      seeDrawn();
    },
  );
  card.append(
    el("header", {}, title, level, standing, progress),
    el(
      "div",
      { class: "nav-body" },
      sheet.node,
      el("div", { class: "nav-ask" }, text, form, summary, hints, working, actions, trouble, note),
    ),
    live,
  );

  const read = () => Object.fromEntries(parts.map((part) => [part.name, part.read()]));
  const seeDrawn = () => {
    for (const part of parts) part.see(sheet.lies());
  };
  const edited = () => {
    keep("draft", key, read());
    seeDrawn();
  };

  /** @param {string} action */
  function act(action) {
    if (waiting) return;
    const answers = read();
    known = { ...answers };
    waiting = { turn: unique("turn"), action, before: face, key };
    card.setAttribute("aria-busy", "true");
    slow = window.setTimeout(() => {
      trouble.textContent = say(
        "No answer yet. What you wrote still stands here. If nothing comes, the " +
          "program behind this page may have stopped: start the lesson again.",
      );
      trouble.hidden = false;
    }, SLOW_MS);
    model.send({ do: action, answers, lies: sheet.lies(), turn: waiting.turn });
  }

  function free() {
    window.clearTimeout(slow);
    waiting = null;
    card.removeAttribute("aria-busy");
    showTrouble();
  }

  function showBoxes() {
    const next = questionKey(face, model.get("picture"));
    if (next !== key) {
      key = next;
      const draft = kept("draft", key);
      const lies = kept("lies", key) ?? face.lies;
      if (Object.keys(lies).length) sheet.lay(lies);
      sheet.take(face.parts.find((part) => part.drawn)?.drawn ?? "");
      parts = face.parts.map((part) => answerPart(part, { enter, edited }));
      for (const [n, part] of parts.entries()) {
        part.write(draft?.[part.name] ?? face.parts[n].value);
      }
      form.replaceChildren(...parts.map((part) => part.node));
    } else {
      for (const [n, part] of parts.entries()) {
        const { value } = face.parts[n];
        // A box is set anew only when the desk changed its mind, never over what is being typed.
        if (value !== known[part.name] && part.read() === known[part.name]) part.write(value);
      }
    }
    known = Object.fromEntries(face.parts.map((part) => [part.name, part.value]));
    seeDrawn();
    sheet.key(face.key);
    const closed = !face.actions.some(([name]) => name === CHECK);
    sheet.done(closed);
    for (const part of parts) {
      part.tell(face.feedback?.parts[part.name]);
      part.close(closed);
    }
  }

  function enter() {
    if (face.actions.length) act(face.actions[0][0]);
  }

  function showActions() {
    const had = [...actions.children];
    const buttons = face.actions.map(([name, words], n) => {
      const old = had.find((one) => one instanceof HTMLElement && one.dataset.action === name);
      const node = old ?? button("", () => act(name), { "data-action": name });
      const told =
        name === "hint" && face.hints.length && face.hints_left
          ? say("{words} ({left} left)", { words, left: face.hints_left })
          : words;
      node.textContent = told;
      node.classList.toggle("nav-first", n === 0);
      return node;
    });
    const same = buttons.length === had.length && buttons.every((node, n) => node === had[n]);
    if (!same) actions.replaceChildren(...buttons);
  }

  function show() {
    const held = document.activeElement;
    face = model.get("face");
    sheet.show(model.get("picture"));
    showPictured(card, Boolean(model.get("picture")));
    title.textContent = face.title;
    set(card, { "data-nav-place": face.place });
    level.hidden = !face.level;
    level.textContent = "●".repeat(face.level) + "○".repeat(Math.max(LEVELS - face.level, 0));
    set(level, { "aria-label": levelWords(face.level), title: levelWords(face.level) });
    standing.textContent = face.standing;
    progress.hidden = !face.progress;
    if (face.progress) {
      const { done, of } = face.progress;
      set(progress, { value: done, max: of, "aria-label": say("{done} of {of} done", { done, of }) });
    }
    text.replaceChildren(...paragraphs(face.text), ...tableView(face.table));
    showBoxes();
    summary.textContent = face.feedback?.summary ?? "";
    summary.hidden = !summary.textContent;
    hints.replaceChildren(...face.hints.map((words) => el("li", {}, words)));
    hints.hidden = !face.hints.length;
    working.replaceChildren(
      el("div", { class: "nav-working-title" }, say("Worked solution")),
      el("ol", {}, ...(face.working ?? []).map((words) => el("li", {}, words))),
    );
    working.hidden = !face.working;
    showActions();
    note.textContent = face.note;
    note.hidden = !face.note;
    if (held instanceof HTMLElement && root.contains(held)) held.focus({ preventScroll: true });
  }

  /** @param {Face} before @returns {string} what a listener should hear now */
  function news(before) {
    const verdicts =
      JSON.stringify(face.feedback) === JSON.stringify(before.feedback)
        ? []
        : [
            face.feedback?.summary ?? "",
            ...parts.flatMap(({ name, prompt }) => {
              const judged = face.feedback?.parts[name];
              return judged
                ? [`${prompt}: ${judged.says.join(" ") || VERDICTS[judged.outcome]}`]
                : [];
            }),
          ];
    return [
      ...verdicts,
      ...face.hints.slice(before.hints.length).map((hint) => say("Hint: {hint}", { hint })),
    ].join(" ");
  }

  /** Put the keyboard where the learner goes on. @param {NonNullable<typeof waiting>} done */
  function goOn(done) {
    if (key !== done.key) {
      live.textContent = `${face.title}.`;
      (parts[0] ?? summary).focus();
      card.scrollIntoView({ block: "nearest" });
      return;
    }
    live.textContent = news(done.before);
    const first = done.before.actions[0]?.[0] === done.action;
    if (face.working && !done.before.working) working.focus();
    else if (first && face.feedback) {
      const { feedback } = face;
      const wanting = parts.find(
        ({ name }) => !["right", "carried"].includes(feedback.parts[name]?.outcome ?? "right"),
      );
      const onward = actions.querySelector('[data-action="next"]') ?? actions.firstElementChild;
      (wanting ?? onward ?? summary).focus();
    } else if (!root.contains(document.activeElement))
      (actions.firstElementChild ?? summary).focus();
    if (face.hints.length > done.before.hints.length) {
      hints.lastElementChild?.scrollIntoView({ block: "nearest" });
    }
  }

  /** @param {{answered?: string}} message */
  function heard(message) {
    if (!waiting || message.answered !== waiting.turn) return;
    const done = waiting;
    free();
    if (model.get("trouble")) return;
    keep("draft", done.key, null);
    goOn(done);
  }

  function showTrouble() {
    trouble.textContent = model.get("trouble");
    trouble.hidden = !trouble.textContent;
  }

  model.on("change:face change:picture", show);
  model.on("change:trouble", showTrouble);
  model.on("msg:custom", heard);
  root.append(card);
  show();
  showTrouble();
  return () => {
    window.clearTimeout(slow);
    sheet.close();
    model.off("change:face change:picture", show);
    model.off("change:trouble", showTrouble);
    model.off("msg:custom", heard);
  };
}

export default { render };
