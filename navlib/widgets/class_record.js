// @ts-check
// The class record: what to open with, who was there, how all stand, slips; and what is kept of whom.

/** @typedef {{asked: number, first: number, last: number, share: number}} Tally */
/** @typedef {{name: string, shown: string, there: boolean[], topics: Tally[]}} LearnerRow */
/** @typedef {{sessions: {title: string, day: string, there: number}[], topics: string[],
 *   learners: LearnerRow[], whole: Tally[],
 *   slips: {says: string, learners: number, told: number, alive: number}[],
 *   open: {says: string, kind: string | null, title: string}[], days: number | null}} RecordFace */

/** Signs that differ in shape, and are spoken in words. @param {boolean} was */
const there = (was) =>
  el("span", { class: "nav-there", role: "img", "aria-label": was ? say("there") : say("away") }, was ? "●" : "–");

/** @param {Tally} tally @returns {Node | string} */
const tally = ({ asked, last, share }) =>
  asked ? el("span", { class: "nav-tally" }, bar(share), say("{right} of {all}", { right: last, all: asked })) : "";

/** @param {RecordFace} face @returns {Node[]} */
function openView({ open }) {
  if (!open.length) return [];
  const lines = open.map(({ says, title }) =>
    el("li", {}, says, title ? el("span", { class: "nav-hint" }, ` ${say("Ask: {title}", { title })}`) : null),
  );
  return [heading(4, say("To open the next session with")), el("ul", { class: "nav-open-with" }, ...lines)];
}

/** @param {RecordFace} face */
function standingView({ sessions, topics, learners, whole }) {
  const heads = [say("Learner"), ...sessions.map(({ day }) => day), ...topics];
  const rows = learners.map((one) => [one.shown, ...one.there.map(there), ...one.topics.map(tally)]);
  const together = [say("Together"), ...sessions.map((one) => String(one.there)), ...whole.map(tally)];
  const table = tableOf(heads, [...rows, together], say("Who was there, and how it stands"));
  table.querySelector("tbody")?.lastElementChild?.classList.add("nav-together");
  return [
    table,
    el("p", { class: "nav-hint" }, say("Topics: questions that were right in the end, of those answered.")),
  ];
}

/** @param {RecordFace} face @returns {Node[]} */
function slipsView({ slips }) {
  if (!slips.length) return [];
  const heads = [say("Somebody …"), say("Learners"), say("Times"), say("Not right since")];
  const rows = slips.map((one) => [one.says, String(one.learners), String(one.told), String(one.alive)]);
  return [tableOf(heads, rows, say("Slips"))];
}

/** @param {{model: any, el: HTMLElement}} context */
function render({ model, el: root }) {
  /** @type {RecordFace} */
  let face = model.get("face");
  /** @type {string | null} what would be set if it was pressed again */
  let asked = null;
  const line = told();
  const desk = talk(model, line.slowly);
  const shown = el("div", { class: "nav-outcome" });
  const empty = el(
    "p",
    { class: "nav-hint" },
    say("Nothing is kept yet. Run a session above; then look here who was there and how it stands."),
  );
  const names = tick(say("with names"));
  names.box.checked = true;
  const who = field(say("Learner"), el("select"));
  const again = field(say("To delete: the name, once more"), textBox({ maxlength: 80 }));
  const days = field(say("Keep sessions for (days)"), textBox({ inputmode: "numeric", maxlength: 5 }));

  /** @param {string} action @param {Record<string, any>} [content] */
  const ask = async (action, content) => {
    line.tell("");
    return line.reply(await desk.ask(action, content));
  };
  /** What would be deleted at once is told first, and done when it is asked for once more. */
  async function keep() {
    const given = days.box.value;
    const sure = asked === given;
    const done = await ask("keep", { days: given, sure });
    asked = done && !sure ? given : null;
  }
  days.box.addEventListener("input", () => (asked = null));

  const kept = el(
    "div",
    { class: "nav-make" },
    heading(4, say("Take it away")),
    el(
      "div",
      { class: "nav-fields" },
      button(say("Look again"), () => ask("look"), { class: "nav-button nav-first" }),
      button(say("Print the record"), () => ask("page", { names: names.box.checked })),
      names.node,
      button(say("Table for a spreadsheet"), () => ask("table")),
    ),
    heading(4, say("What is kept of a learner")),
    el(
      "div",
      { class: "nav-fields" },
      who.node,
      button(say("Save their data"), () => ask("data", { name: who.box.value })),
      again.node,
      button(say("Delete it"), forget),
    ),
    heading(4, say("How long sessions are kept")),
    el("div", { class: "nav-fields" }, days.node, button(say("Set"), keep)),
    el(
      "p",
      { class: "nav-hint" },
      say("Sessions that ended longer ago are deleted with their answers. Left empty, all are kept."),
    ),
  );
  async function forget() {
    if (await ask("forget", { name: who.box.value, written: again.box.value })) again.box.value = "";
  }

  const section = el(
    "section",
    { class: "nav nav-coach nav-wide nav-class-record", "aria-label": say("The class record") },
    heading(3, say("The class record")),
    empty,
    shown,
    kept,
    line.node,
    line.slow,
  );

  function show() {
    face = model.get("face");
    empty.hidden = face.sessions.length > 0;
    const before = who.box.value;
    who.box.replaceChildren(
      ...face.learners.map((one) => el("option", { value: one.name }, one.shown)),
    );
    if (face.learners.some((one) => one.name === before)) who.box.value = before;
    const views = face.sessions.length ? [...openView(face), ...standingView(face), ...slipsView(face)] : [];
    shown.replaceChildren(...views);
    if (document.activeElement !== days.box) days.box.value = face.days === null ? "" : String(face.days);
  }

  model.on("change:face", show);
  root.append(section);
  show();
  return () => {
    desk.close();
    model.off("change:face", show);
  };
}

export default { render };
