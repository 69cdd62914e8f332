// @ts-check
// The marking form: one candidate's paper at a time, each answer kept as soon as Enter is pressed.

/** @typedef {{candidate: string, code: string, name: string, items: ItemFace[], total: string,
 *   out_of: string, pass_mark: string, passed: boolean | null, left: number, parts: number,
 *   notation: string, undecided: string, suggested: string}} FormFace */
/** @typedef {{sittings: {path: string, words: string}[], sitting: string, title: string,
 *   home: string, marker: string, damaged?: number, form: FormFace | null,
 *   candidates: {candidate: string, code: string, name: string, state: string}[]}} MarkingFace */

const ELSEWHERE = "…";
const SOMEONE = "…";

/** @param {{model: any, el: HTMLElement}} context */
function render({ model, el: root }) {
  /** @type {MarkingFace} */
  let face = model.get("face");
  /** @type {ReturnType<typeof itemView>[]} */
  let items = [];
  let shown = "";
  let unkept = 0;

  const line = told();
  const desk = talk(model, line.slowly);

  const which = field(say("Sitting"), el("select"), { name: "nav-long" });
  const path = field(say("Its folder"), textBox(), { name: "nav-long" });
  const marker = field(say("Your initials"), textBox({ maxlength: 12, size: 5 }));
  const open = button(say("Open"), opening, { class: "nav-button nav-first" });
  const who = field(say("Candidate"), el("select"));
  const number = field(say("Number"), textBox({ maxlength: 12, size: 5 }));
  const code = field(say("Paper"), textBox({ maxlength: 20, size: 9 }));
  const name = field(say("Name, if you keep it"), textBox({ maxlength: 80 }));
  const before = button("‹", () => step(-1), { "aria-label": say("Candidate before") });
  const after = button("›", () => step(1), { "aria-label": say("Next candidate") });
  const total = el("p", { class: "nav-total" });
  const again = el("span", { class: "nav-again" });
  const state = el("p", { class: "nav-kept", role: "status" });
  const live = el("div", { class: "nav-live", role: "status", "aria-live": "polite" });
  const bar_ = el(
    "div",
    { class: "nav-candidate" },
    el("div", { class: "nav-fields" }, before, who.node, after, number.node, code.node, name.node),
    total,
    state,
  );
  const list = el("div", { class: "nav-items" });
  const onwards = button(say("Next candidate"), () => step(1), { class: "nav-button nav-first" });
  const table = tableView(desk, line, () => {
    shown = "";
    update();
  });
  const body = el(
    "div",
    { hidden: true },
    bar_,
    el(
      "p",
      { class: "nav-hint" },
      say(
        "Type what stands on the paper and press Enter: it is kept, marked, and you are in the next " +
          "box. Write - where the candidate wrote nothing. What is drawn on a sheet you judge by eye, " +
          "beside the solved sheet of the mark scheme.",
      ),
    ),
    list,
    el("div", { class: "nav-actions" }, onwards, again),
    table.node,
  );
  const none = el(
    "p",
    { class: "nav-hint" },
    say("No sitting is known on this computer yet: make one above, or name its folder."),
  );
  const section = el(
    "section",
    { class: "nav nav-coach nav-wide", "aria-label": say("Mark the papers") },
    heading(3, say("Mark the papers")),
    none,
    el("div", { class: "nav-fields nav-opening" }, which.node, path.node, marker.node, open),
    line.node,
    line.slow,
    body,
    live,
  );

  /** @returns {string} under which half-typed answers are kept in this browser */
  const place = () => `typed ${face.sitting} ${face.form?.candidate} ${face.marker}`;

  /** @type {Deeds} */
  const deeds = {
    edited(label, text) {
      remember(place(), { ...remembered(place()), [label]: text });
      state.textContent = say("Not kept yet: press Enter.");
    },
    enter: (label, text) => enter({ answers: { [label]: text } }),
    tick: (item, marks) => enter({ working: { [item]: marks } }),
    onward(from) {
      const boxes = [...list.querySelectorAll(".nav-next-box"), onwards];
      boxes[boxes.indexOf(from) + 1]?.focus();
    },
    overrule: async (question, marks, reason) =>
      line.reply(await desk.ask("overrule", { question, marks, reason })),
  };

  /** @param {{answers?: Record<string, string>, working?: Record<number, number>}} content */
  async function enter(content) {
    const { form } = face;
    if (!form) return;
    const key = place();
    const whose = form.candidate;
    unkept += 1;
    state.textContent = say("Keeping…");
    const reply = await desk.ask("enter", {
      candidate: whose,
      code: form.code,
      marker: face.marker,
      name: name.box.value,
      ...content,
    });
    unkept -= 1;
    if (!line.reply(reply)) {
      state.textContent = say("Not kept: see above.");
      return;
    }
    line.tell("");
    const left = { ...remembered(key) };
    for (const [label, text] of Object.entries(content.answers ?? {})) {
      if (left[label] === text) delete left[label];
    }
    remember(key, Object.keys(left).length ? left : null);
    if (!unkept) state.textContent = say("All is kept.");
    if (face.form?.candidate === whose) speak(Object.keys(content.answers ?? {}));
  }

  /** @param {string[]} labels */
  function speak(labels) {
    const parts = face.form?.items.flatMap((item) => item.parts) ?? [];
    live.textContent = parts
      .filter((part) => labels.includes(part.label) && part.outcome)
      .map(({ label, outcome, marks }) =>
        say("{label}: {words}, {marks} marks", { label, words: OUTCOMES[outcome][1], marks }),
      )
      .join(" ");
  }

  async function opening() {
    const sitting = which.box.value === ELSEWHERE ? path.box.value : which.box.value;
    const content = { sitting, marker: marker.box.value, candidate: remembered("candidate") ?? "" };
    line.tell(say("Opening…"));
    if (!line.reply(await desk.ask("open", content))) return;
    line.tell("");
    remember("marking", { sitting, marker: face.marker });
    firstEmpty();
  }

  function firstEmpty() {
    const parts = items.flatMap((item) => item.parts);
    (parts.find((part) => part.empty())?.box ?? onwards).focus();
  }

  /** @param {string} candidate @param {string} [paper] */
  async function choose(candidate, paper = "") {
    const reply = await desk.ask("choose", { candidate, code: paper });
    if (!line.reply(reply)) return;
    line.tell("");
    remember("candidate", face.form?.candidate ?? "");
    firstEmpty();
  }

  /** @param {number} by */
  function step(by) {
    const at = face.candidates.findIndex((one) => one.candidate === face.form?.candidate);
    const next = face.candidates[at + by];
    if (next) choose(next.candidate);
    else line.tell(by > 0 ? say("That was the last candidate.") : say("That is the first one."));
  }

  /** @param {FormFace} form */
  function lay(form) {
    items = form.items.map((item) => itemView(item, deeds));
    list.replaceChildren(...items.map((item) => item.node));
    code.box.value = form.code;
    name.box.value = form.name;
    state.textContent = "";
    const typed = remembered(place()) ?? {};
    for (const part of items.flatMap((item) => item.parts)) {
      if (typeof typed[part.label] === "string") part.restore(typed[part.label]);
    }
  }

  function update() {
    face = model.get("face");
    const { form, sittings } = face;
    const held = which.box.value;
    which.box.replaceChildren(
      ...sittings.map((one) => el("option", { value: one.path }, one.words)),
      el("option", { value: ELSEWHERE }, say("in another folder…")),
    );
    const known = [...sittings.map((one) => one.path), ELSEWHERE];
    which.box.value = face.sitting || (known.includes(held) ? held : known[0]);
    none.hidden = sittings.length > 0;
    showPath();
    body.hidden = !form;
    if (!form) {
      shown = "";
      return;
    }
    who.box.replaceChildren(
      ...face.candidates.map((one) => {
        const words = [one.candidate, one.name, one.state].filter(Boolean).join(" – ");
        return el("option", { value: one.candidate }, words);
      }),
      el("option", { value: SOMEONE }, say("another number…")),
    );
    who.box.value = form.candidate;
    if (who.box.selectedIndex < 0) who.box.value = SOMEONE;
    number.node.hidden = who.box.value !== SOMEONE;
    total.textContent = again.textContent = totalWords(form);
    const now = [face.sitting, face.marker, form.candidate, form.code].join("\n");
    if (now !== shown) {
      shown = now;
      lay(form);
    } else for (const [n, item] of items.entries()) item.update(form.items[n]);
  }

  const showPath = () => (path.node.hidden = which.box.value !== ELSEWHERE);
  which.box.addEventListener("change", showPath);
  who.box.addEventListener("change", () => {
    number.node.hidden = who.box.value !== SOMEONE;
    if (who.box.value === SOMEONE) number.box.focus();
    else choose(who.box.value);
  });
  number.box.addEventListener("change", () => choose(number.box.value, code.box.value));
  code.box.addEventListener("change", () => choose(face.form?.candidate ?? "", code.box.value));
  name.box.addEventListener("change", () => enter({}));
  onEnter(name.box, () => {
    name.box.dispatchEvent(new Event("change"));
    firstEmpty();
  });
  onEnter(marker.box, () => open.click());
  onEnter(path.box, () => open.click());
  model.on("change:face", update);
  root.append(section);
  update();
  const last = remembered("marking");
  if (last?.marker) {
    marker.box.value = last.marker;
    if (!face.form && face.sittings.some((one) => one.path === last.sitting)) {
      which.box.value = last.sitting;
      desk.ask("open", { ...last, candidate: remembered("candidate") ?? "" }).then(line.reply);
    }
  }
  return () => {
    desk.close();
    model.off("change:face", update);
  };
}

export default { render };
