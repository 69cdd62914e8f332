// @ts-check
// A worked example, uncovered step by step: the question first, then what is done.

/** `lies` is where the instruments lie when the step is done, if it is done with them.
 * @typedef {{how: string, line: string, ask?: string, lies?: Record<string, any> | null}} Step */
/** @typedef {{title: string, text: string, picture?: Picture | null,
 *   table?: Table | null, steps: Step[]}} Example */

/** @param {Step[]} steps @param {number} n @returns {string} what to think about before step n */
function question(steps, n) {
  if (steps[n].ask) return steps[n].ask;
  if (n === 0) return say("What do you do first?");
  return n === steps.length - 1 ? say("What is the last step?") : say("What comes next?");
}

/** @param {{model: any, el: HTMLElement}} context */
function render({ model, el: root }) {
  const heading = unique("steps");
  const title = el("div", { class: "nav-title", id: heading, role: "heading", "aria-level": 3 });
  const text = el("div", { class: "nav-text" });
  const list = el("ol", { class: "nav-steps" });
  const asked = el("p", { class: "nav-asked" });
  const next = button(say("Show the next step"), () => uncover(model.get("shown") + 1), {
    class: "nav-button nav-first",
  });
  const all = button(say("Show all"), () => uncover(steps().length));
  const cover = button(say("Cover again"), () => uncover(0));
  const live = el("div", { class: "nav-live", role: "status", "aria-live": "polite" });
  const card = el("section", { class: "nav nav-worked", "aria-labelledby": heading });
  const sheet = sheetView((large) => card.classList.toggle("nav-large", large));
  card.append(
    title,
    el(
      "div",
      { class: "nav-body" },
      sheet.node,
      el(
        "div",
        { class: "nav-ask" },
        text,
        list,
        asked,
        el("div", { class: "nav-actions" }, next, all, cover),
      ),
    ),
    live,
  );

  /** @returns {Step[]} */
  const steps = () => model.get("example").steps;

  /** @param {number} count */
  function uncover(count) {
    const before = model.get("shown");
    model.set("shown", Math.min(count, steps().length));
    model.save_changes();
    const { length } = steps();
    const fresh = steps().slice(before, model.get("shown"));
    live.textContent = [...fresh.flatMap(({ how, line }) => [how, line]), asked.textContent].join(
      " ",
    );
    if (model.get("shown") === length) cover.focus();
    else if (count === 0) next.focus();
    list.lastElementChild?.scrollIntoView({ block: "nearest" });
  }

  function show() {
    /** @type {Example} */
    const example = model.get("example");
    const shown = Math.min(model.get("shown"), example.steps.length);
    const done = shown === example.steps.length;
    title.textContent = example.title;
    text.replaceChildren(...paragraphs(example.text), ...tableView(example.table));
    sheet.show(example.picture ?? null);
    showPictured(card, Boolean(example.picture));
    list.replaceChildren(
      ...example.steps
        .slice(0, shown)
        .map(({ how, line }) =>
          el("li", {}, el("p", {}, how), ...(line ? [el("p", { class: "nav-line" }, line)] : [])),
        ),
    );
    const laid = example.steps.slice(0, shown).findLast(({ lies }) => lies)?.lies;
    if (example.steps.some(({ lies }) => lies)) sheet.lay(laid ?? {}, true);
    asked.textContent = done ? say("That is the whole way.") : question(example.steps, shown);
    next.hidden = all.hidden = done;
    cover.hidden = shown === 0;
  }

  model.on("change:example change:shown", show);
  root.append(card);
  show();
  return () => {
    sheet.close();
    model.off("change:example change:shown", show);
  };
}

export default { render };
