// @ts-check
// The answer boxes of a card, each with what was said about it.

/** @typedef {{name: string, prompt: string, example: string, options: [string, string][] | null,
 *   value: string}} Part */
/** @typedef {"right" | "carried" | "near" | "wrong" | "unread"} Outcome */
/** @typedef {{outcome: Outcome, says: string[]}} Judged */

/** Used where the desk says nothing of its own.
 * @type {Record<Outcome, string>} */
const VERDICTS = {
  right: "Right.",
  carried: "Right, from your own earlier answer.",
  near: "Close.",
  wrong: "Not right yet.",
  unread: "Not judged yet.",
};

/** Signs that differ in shape, not in colour alone.
 * @type {Record<Outcome, string>} */
const SIGNS = {
  right: "M4 13l5 5L20 6",
  carried: "M3 12h16M13 5l7 7l-7 7",
  near: "M3 9q4.5-5 9 0t9 0M3 16q4.5-5 9 0t9 0",
  wrong: "M5 5l14 14M19 5L5 19",
  unread: "M8 9q0-4.5 4-4.5t4 4q0 3-4 4.5v2M12 19v.6",
};

/** @param {Outcome} outcome */
const sign = (outcome) =>
  draw(
    "svg",
    { class: "nav-sign", viewBox: "0 0 24 24", "aria-hidden": "true" },
    draw("path", { d: SIGNS[outcome] }),
  );

/**
 * One part of the question: its words, box or choices, and room for what is said about it.
 * @param {Part} part
 * @param {{enter: () => void, edited: () => void}} told
 */
function answerPart(part, told) {
  const id = unique("part");
  const said = el("div", { class: "nav-said", id: `${id}-said`, hidden: true });
  /** @type {HTMLInputElement[]} */
  let boxes;
  let node;
  const common = {
    input: told.edited,
    change: told.edited,
    keydown: onEnter,
    "aria-describedby": "",
  };

  /** @param {any} event */
  function onEnter(event) {
    if (event.key !== "Enter" || event.isComposing) return;
    event.preventDefault();
    event.stopPropagation();
    if (!event.repeat) told.enter();
  }

  if (part.options) {
    boxes = part.options.map(([value]) =>
      el("input", { type: "radio", name: id, value, ...common }),
    );
    node = el(
      "fieldset",
      { class: "nav-part" },
      el("legend", {}, part.prompt),
      ...part.options.map(([, words], n) => el("label", { class: "nav-option" }, boxes[n], words)),
      said,
    );
  } else {
    const example = part.example
      ? el("span", { class: "nav-example", id: `${id}-example` }, `for example ${part.example}`)
      : null;
    boxes = [
      el("input", {
        type: "text",
        id,
        autocomplete: "off",
        autocapitalize: "off",
        spellcheck: "false",
        maxlength: 120,
        ...common,
      }),
    ];
    node = el(
      "div",
      { class: "nav-part" },
      el("label", { for: id }, part.prompt),
      el("div", { class: "nav-box" }, boxes[0], example),
      said,
    );
  }
  for (const box of boxes) box.setAttribute("aria-describedby", `${id}-example ${id}-said`);

  return {
    name: part.name,
    prompt: part.prompt,
    node,
    read: () => (part.options ? (boxes.find((box) => box.checked)?.value ?? "") : boxes[0].value),
    /** @param {string} value */
    write(value) {
      if (part.options) for (const box of boxes) box.checked = box.value === value;
      else if (boxes[0].value !== value) boxes[0].value = value;
    },
    /** Whether the answer stands and is no longer to be changed.
     * @param {boolean} closed */
    close(closed) {
      for (const box of boxes) {
        if (part.options) box.disabled = closed;
        else box.readOnly = closed;
      }
    },
    focus: () => (boxes.find((one) => one.checked) ?? boxes[0]).focus(),
    /** @param {Judged | undefined} judged */
    say(judged) {
      said.hidden = !judged;
      node.dataset.outcome = judged?.outcome ?? "";
      const wrong = judged?.outcome === "wrong" || judged?.outcome === "unread";
      for (const box of boxes) set(box, { "aria-invalid": wrong ? "true" : null });
      if (!judged) return said.replaceChildren();
      const [verdict, ...more] = judged.says.length ? judged.says : [VERDICTS[judged.outcome]];
      said.replaceChildren(
        el("p", { class: "nav-verdict" }, sign(judged.outcome), verdict),
        ...more.map((words) => el("p", {}, words)),
      );
    },
  };
}
