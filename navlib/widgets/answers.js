// @ts-check
// The answer boxes of a card, each with what was said about it.

/** @typedef {{name: string, prompt: string, example: string, options: [string, string][] | null,
 *   value: string, drawn: string, written: boolean}} Part */
/** @typedef {"right" | "carried" | "near" | "wrong" | "unread"} Outcome */
/** @typedef {{outcome: Outcome, says: string[]}} Judged */

/** Used where the desk says nothing of its own.
 * @type {Record<Outcome, string>} */
const VERDICTS = {
  right: say("Right."),
  carried: say("Right, from your own earlier answer."),
  near: say("Close."),
  wrong: say("Not right yet."),
  unread: say("Not judged yet."),
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
 * What of the things drawn is taken for the answer: the last.
 * @param {string} tool @param {any[]} things
 */
function drawnWords(tool, things) {
  const last = things.at(-1);
  if (!last) {
    if (tool === "pencil line") return say("No line on the sheet yet. Take “Pencil line” from the tray.");
    if (tool === "pencil circle") return say("No circle on the sheet yet. Take “Pencil circle” from the tray.");
    return say("No mark on the sheet yet. Take “Pencil mark” from the tray.");
  }
  const more = things.length > 1 ? ` ${say("Of {count} the last one counts.", { count: things.length })}` : "";
  if (tool === "pencil line") {
    const [start, end] = [spokenSpot([last.x1, last.y1]), spokenSpot([last.x2, last.y2])];
    return say("On the sheet, from {start} to {end}.", { start, end }) + more;
  }
  const spot = spokenSpot([last.x, last.y]);
  if (tool === "pencil circle") {
    return say("On the sheet, about {spot}, open {wide} mm.", { spot, wide: Math.round(last.r) }) + more;
  }
  return say("On the sheet, {spot}.", { spot }) + more;
}

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
  /** @type {any} */
  let box = null;
  /** @type {any} */
  let instead = null;
  const taken = el("p", { class: "nav-drawn", tabindex: -1 });
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
  } else if (part.drawn) {
    box = el("input", { type: "text", id, autocomplete: "off", spellcheck: "false", maxlength: 120, ...common });
    boxes = [box];
    const label = el("label", { for: id }, say("Or write it, as {example}", { example: part.example }));
    instead = el("details", { class: "nav-write" }, el("summary", {}, say("Write it instead")), label, box);
    instead.hidden = !part.written;
    node = el("div", { class: "nav-part" }, el("div", { class: "nav-drawn-name" }, part.prompt), taken, instead, said);
  } else {
    const example = part.example
      ? el("span", { class: "nav-example", id: `${id}-example` }, say("for example {example}", { example: part.example }))
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
      if (instead && value) instead.open = true;
    },
    /** Say what on the sheet is taken for the answer, if it is drawn there.
     * @param {Record<string, any>} lies */
    see(lies) {
      if (!part.drawn) return;
      const things = lies[part.drawn] ?? [];
      const words = boxes[0].value.trim() ? say("What is written below counts.") : drawnWords(part.drawn, things);
      if (taken.textContent !== words) taken.textContent = words;
    },
    /** Whether the answer stands and is no longer to be changed.
     * @param {boolean} closed */
    close(closed) {
      for (const box of boxes) {
        if (part.options) box.disabled = closed;
        else box.readOnly = closed;
      }
    },
    focus() {
      if (part.drawn && !instead.open) taken.focus({ preventScroll: true });
      else (boxes.find((one) => one.checked) ?? boxes[0]).focus();
    },
    /** @param {Judged | undefined} judged */
    tell(judged) {
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
