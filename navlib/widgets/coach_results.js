// @ts-check
// What came of a sitting: class list, questions, two markers, and what is given back.

/** @typedef {{candidate: string, name: string, marks: string, out_of: string, percent: number,
 *   verdict: string, topics: (number | null)[], looks: string[]}} ClassRow */
/** @typedef {{number: number, title: string, facility: string, discrimination: string,
 *   slips: string[], says: string[], review: boolean}} QuestionRow */
/** @typedef {{marked: number, papers: number, topics?: string[], class?: ClassRow[],
 *   middle?: string, whole?: [string, string, string][], questions?: QuestionRow[],
 *   few?: string[], differences?: {says: string, discuss: boolean, places: string[][]}[]}} Outcome */
/** @typedef {{sittings: {path: string, words: string}[], sitting: string, title: string,
 *   outcome: Outcome | null, files: KeptFile[]}} ResultsFace */

const FRESH_MS = 900;

/** @param {Outcome} outcome @returns {Node[]} */
function classView({ class: rows = [], topics = [], middle = "" }) {
  const heads = [say("Candidate"), say("Marks"), "%", say("Result"), ...topics, say("Look again")];
  /** @param {number | null} share */
  const share = (share) =>
    share === null ? "–" : el("span", { class: "nav-share" }, bar(share), `${Math.round(100 * share)} %`);
  /** @type {Record<string, string>} */
  const verdicts = {
    pass: `✓ ${say("pass")}`,
    "not yet": say("not yet"),
    open: say("open"),
  };
  const lines = rows.map((row) => [
    [row.candidate, row.name].filter(Boolean).join(" "),
    say("{marks} of {of}", { marks: row.marks, of: row.out_of }),
    String(row.percent),
    verdicts[row.verdict] ?? row.verdict,
    ...row.topics.map(share),
    row.looks.join(" "),
  ]);
  return [tableOf(heads, lines, say("The class")), el("p", {}, middle)];
}

/** @param {Outcome} outcome @returns {Node[]} */
function questionsView({ questions = [], whole = [], few = [] }) {
  const heads = [
    say("Question"),
    say("Facility"),
    say("Discrimination"),
    say("Slips"),
    say("What that says"),
  ];
  const lines = questions.map((one) => [
    `${one.number} ${one.title}`,
    one.facility,
    one.discrimination,
    one.slips.join(", ") || "–",
    el("span", {}, one.review ? el("b", {}, `${say("Look at it.")} `) : null, one.says.join(" ")),
  ]);
  const paper = whole.map(([name, says, warning]) =>
    el("li", {}, el("b", {}, name), el("span", {}, [says, warning].filter(Boolean).join(" "))),
  );
  return [
    tableOf(heads, lines, say("The questions")),
    ...few.map((words) => el("p", { class: "nav-hint" }, words)),
    heading(4, say("The paper")),
    el("ul", { class: "nav-whole" }, ...paper),
  ];
}

/** @param {Outcome} outcome @returns {Node[]} */
function differencesView({ differences = [] }) {
  if (!differences.length) return [];
  const lines = differences.map(({ says, discuss, places }) =>
    el(
      "li",
      { class: discuss ? "nav-missing" : "" },
      says,
      places.length ? el("span", { class: "nav-hint" }, ` ${places.map(placed).join("; ")}`) : null,
    ),
  );
  return [heading(4, say("Two markers")), el("ul", { class: "nav-findings" }, ...lines)];
}

/** @param {string[]} place */
const placed = ([label, first, second]) => say("{label}: {first} or {second}", { label, first, second });

/** @param {{model: any, el: HTMLElement}} context */
function render({ model, el: root }) {
  /** @type {ResultsFace} */
  let face = model.get("face");
  let fresh = 0;
  let busy = false;
  const line = told();
  const given = told();
  const desk = talk(model, line.slowly);
  const progress = progressView(model);
  const which = field(say("Sitting"), el("select"), { name: "nav-long" });
  const closing = field(say("Last line of the feedback, such as the date of the resit"), textBox({ maxlength: 200 }), {
    name: "nav-long",
  });
  const large = tick(say("in large print"));
  const state = el("p", { class: "nav-hint", role: "status" });
  const shown = el("div", { class: "nav-outcome" });
  const files = el("div", {});
  const write = button(say("Write results and feedback sheets"), writing, {
    class: "nav-button nav-first",
  });
  const giving = el(
    "div",
    { class: "nav-make", hidden: true },
    heading(4, say("Give it back")),
    el("div", { class: "nav-fields" }, closing.node),
    el("div", { class: "nav-ticks" }, large.node),
    el("div", { class: "nav-actions" }, write),
    progress.node,
    given.node,
    files,
  );
  const section = el(
    "section",
    { class: "nav nav-coach nav-wide", "aria-label": say("What came of it") },
    heading(3, say("What came of it")),
    el(
      "div",
      { class: "nav-fields nav-opening" },
      which.node,
      button(say("Show"), () => showing(which.box.value), { class: "nav-button nav-first" }),
    ),
    state,
    line.node,
    line.slow,
    shown,
    giving,
  );

  /** @param {string} sitting */
  async function showing(sitting) {
    if (!sitting) return;
    fresh = Date.now();
    if (line.reply(await desk.ask("show", { sitting }))) line.tell("");
  }

  async function writing() {
    if (busy) return;
    busy = true;
    set(write, { "aria-disabled": "true" });
    given.tell("");
    given.reply(await desk.ask("write", { closing: closing.box.value, large: large.box.checked }));
    busy = false;
    set(write, { "aria-disabled": null });
  }

  function update() {
    face = model.get("face");
    const { outcome, sittings } = face;
    const held = which.box.value;
    which.box.replaceChildren(...sittings.map((one) => el("option", { value: one.path }, one.words)));
    which.box.value = face.sitting || held || sittings[0]?.path || "";
    giving.hidden = !outcome?.class;
    if (!outcome) state.textContent = sittings.length ? "" : say("Nothing is marked yet.");
    else {
      const { marked, papers } = outcome;
      state.textContent = say("{marked} of {papers} papers are entered.", { marked, papers });
    }
    shown.replaceChildren(
      ...(outcome?.class
        ? [...classView(outcome), ...differencesView(outcome), ...questionsView(outcome)]
        : []),
    );
    const coach = face.files.filter((one) => !one.name.startsWith("feedback"));
    const sheets = face.files.filter((one) => one.name.startsWith("feedback"));
    files.replaceChildren(
      fileLists(
        [
          [say("For you:"), coach],
          [say("For candidates:"), sheets],
        ],
        (place) => desk.ask("open", { place }).then(given.reply),
      ),
    );
  }

  /** Answers may have been entered since this was last in sight. */
  const back = new IntersectionObserver((seen) => {
    if (!seen.some((one) => one.isIntersecting) || !face.sitting) return;
    if (busy || Date.now() - fresh < FRESH_MS) return;
    showing(face.sitting);
  });
  model.on("change:face", update);
  root.append(section);
  back.observe(section);
  update();
  return () => {
    back.disconnect();
    desk.close();
    progress.close();
    model.off("change:face", update);
  };
}

export default { render };
