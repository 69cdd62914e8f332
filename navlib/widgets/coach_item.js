// @ts-check
// One question of a candidate's paper in the marking form: boxes, verdicts, working, a person's word.

/** @typedef {{label: string, prompt: string, hint: string, value: string, out_of: string,
 *   outcome: string, marks: string, key: string, says: string[], decide: boolean,
 *   notation: boolean}} PartFace */
/** @typedef {{given: string, suggested: string, out_of: string,
 *   choices: [string, string][]}} WorkingFace */
/** @typedef {{number: number, title: string, text: string, out_of: string, marks: string,
 *   parts: PartFace[], working: WorkingFace | null, choices: [string, string][],
 *   overruled: null | {marks: string, reason: string, marker: string}}} ItemFace */
/** @typedef {{enter: (label: string, text: string) => void, edited: (label: string, text: string) => void,
 *   tick: (number: number, marks: number) => void, onward: (from: any) => void,
 *   overrule: (number: number, marks: number | null, reason: string) => Promise<boolean>}} Deeds */

/** @type {Record<string, [string, string]>} sign and words of each outcome */
const OUTCOMES = {
  right: ["✓", say("right")],
  carried: ["✓", say("follows from the earlier answer")],
  near: ["≈", say("near")],
  wrong: ["✗", say("not right")],
  unread: ["?", say("you decide")],
  blank: ["–", say("nothing written")],
};

/** @param {any} box @param {() => void} done  Enter was pressed in it */
const onEnter = (box, done) =>
  box.addEventListener("keydown", (/** @type {KeyboardEvent} */ event) => {
    if (event.key !== "Enter" || event.isComposing) return;
    event.preventDefault();
    event.stopPropagation();
    done();
  });

/** @param {PartFace} part @param {Deeds} deeds */
function partView(part, deeds) {
  const { label, prompt, hint } = part;
  let known = part.value;
  const box = textBox({ class: "nav-next-box", maxlength: 500, spellcheck: "false" });
  box.value = known;
  const about = unique("part");
  const verdict = el("span", { class: "nav-verdict" });
  const key = el("span", { class: "nav-key-words" });
  const says = el("p", { class: "nav-says", hidden: true });
  box.id = about;
  const told = el("span", { class: "nav-told", id: `${about}-told` }, verdict, key);
  set(box, { "aria-describedby": `${about}-hint ${about}-told` });
  const node = el(
    "div",
    { class: "nav-part-line" },
    el("label", { for: about }, el("b", {}, label), ` ${prompt}`),
    box,
    el("span", { class: "nav-hint", id: `${about}-hint` }, hint),
    told,
    says,
  );
  const commit = () => {
    if (box.value === known) return;
    known = box.value;
    deeds.enter(label, known);
  };
  onEnter(box, () => {
    commit();
    deeds.onward(box);
  });
  box.addEventListener("input", () => deeds.edited(label, box.value));
  box.addEventListener("change", commit);

  /** @param {PartFace} now */
  function update(now) {
    const [sign, words] = OUTCOMES[now.outcome] ?? ["", ""];
    set(node, { "data-outcome": now.outcome || null });
    const values = { sign, words, marks: now.marks, of: now.out_of };
    verdict.textContent = now.outcome ? say("{sign} {marks} of {of}, {words}", values) : "";
    const bare = now.notation ? say("Unit, north or zone left out.") : "";
    key.textContent = now.key ? say("Key: {key}", { key: now.key }) : "";
    const spoken = [bare, ...now.says].filter(Boolean).join(" ");
    says.textContent = spoken ? say("For the candidate: {words}", { words: spoken }) : "";
    says.hidden = !says.textContent;
  }
  update(part);
  return {
    node,
    label,
    update,
    /** @param {string} text */
    restore: (text) => {
      box.value = text;
      commit();
    },
    empty: () => box.value === "",
    box,
  };
}

/** @param {ItemFace} item @param {Deeds} deeds */
function workingView(item, deeds) {
  const { working } = item;
  if (!working) return null;
  const box = choice([["", ""], ...working.choices], { class: "nav-next-box" });
  box.value = working.given;
  box.id = unique("working");
  const node = el(
    "div",
    { class: "nav-part-line" },
    el("label", { for: box.id }, el("b", {}, say("Working")), ` ${say("of {n}", { n: working.out_of })}`),
    box,
  );
  box.addEventListener("change", () => {
    if (box.value) deeds.tick(item.number, Number(box.value));
  });
  onEnter(box, () => deeds.onward(box));
  /** @param {WorkingFace} now */
  const update = (now) => {
    box.options[0].textContent = now.suggested
      ? say("{n}, as the answers suggest", { n: now.suggested })
      : say("not ticked");
  };
  update(working);
  return { node, update };
}

/** @param {ItemFace} item @param {Deeds} deeds */
function overruleView(item, deeds) {
  const marks = field(say("Marks for the whole question"), choice(item.choices));
  const reason = field(say("Your reason"), textBox({ maxlength: 500 }), { name: "nav-long" });
  const keep = button(say("Keep my marks"), async () => {
    if (await deeds.overrule(item.number, Number(marks.box.value), reason.box.value)) close();
  });
  const back = button(say("Take it back"), async () => {
    if (await deeds.overrule(item.number, null, reason.box.value || say("Taken back."))) close();
  });
  const cancel = button(say("Leave it"), () => close());
  const form = el(
    "div",
    { class: "nav-overrule", role: "group", "aria-label": say("Your own marks"), hidden: true },
    el("div", { class: "nav-fields" }, marks.node, reason.node),
    el("div", { class: "nav-actions" }, keep, back, cancel),
  );
  const open = button(
    say("Overrule…"),
    () => {
      form.hidden = !form.hidden;
      if (!form.hidden) marks.box.focus();
    },
    {
      class: "nav-button nav-small",
      "aria-label": say("Overrule question {n}", { n: item.number }),
    },
  );
  function close() {
    form.hidden = true;
    open.focus();
  }
  onEnter(reason.box, () => keep.click());
  form.addEventListener("keydown", (/** @type {KeyboardEvent} */ event) => {
    if (event.key === "Escape") close();
  });
  /** @param {ItemFace} now */
  const update = ({ overruled, marks: given }) => {
    back.hidden = !overruled;
    if (form.hidden) {
      const at = item.choices.find(([, words]) => words === (overruled?.marks ?? given));
      marks.box.value = at?.[0] ?? "0";
      reason.box.value = overruled?.reason ?? "";
    }
  };
  update(item);
  return { open, form, update };
}

/** @param {ItemFace} item @param {Deeds} deeds */
function itemView(item, deeds) {
  const parts = item.parts.map((part) => partView(part, deeds));
  const working = workingView(item, deeds);
  const own = overruleView(item, deeds);
  const marks = el("span", { class: "nav-item-marks" });
  const person = el("p", { class: "nav-person", hidden: true });
  const name = unique("item");
  const node = el(
    "section",
    { class: "nav-item", "aria-labelledby": name },
    el(
      "header",
      {},
      heading(4, `${item.number}  ${item.title}`, { id: name }),
      marks,
      own.open,
    ),
    el("details", {}, el("summary", { tabindex: 0 }, say("The question")), ...paragraphs(item.text)),
    ...parts.map((part) => part.node),
    working?.node ?? null,
    person,
    own.form,
  );
  /** @param {ItemFace} now */
  function update(now) {
    marks.textContent = now.marks
      ? say("{marks} of {of} marks", { marks: now.marks, of: now.out_of })
      : say("of {of} marks", { of: now.out_of });
    const { overruled } = now;
    person.textContent = overruled
      ? say("{marker} gives {marks}: {reason}", overruled)
      : "";
    person.hidden = !overruled;
    for (const [n, part] of parts.entries()) part.update(now.parts[n]);
    if (now.working) working?.update(now.working);
    own.update(now);
  }
  update(item);
  return { node, parts, update };
}
