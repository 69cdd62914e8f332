// @ts-check
// What the blueprint in the form comes to: time, marks, balance, and what is missing.

/** @typedef {{name: string, marks: number, share: number}} Share */
/** @typedef {{expected: string, meant: string, minutes: number, marks: number, pass_mark: number,
 *   rows: string[], topics: Share[], levels: Share[], ready: boolean,
 *   findings: {number: number, missing: boolean, says: string}[]}} Plan */
/** @typedef {{problems: {place: string, says: string}[], plan: Plan | null}} Reckoned */

function planView() {
  const figures = el("ul", { class: "nav-figures" });
  const topics = el("ul", { class: "nav-shares" });
  const levels = el("ul", { class: "nav-shares" });
  const findings = el("ul", { class: "nav-findings" });
  const state = el("p", { class: "nav-state", role: "status", "aria-live": "polite" });
  const node = el(
    "aside",
    { class: "nav-plan", "aria-label": say("What it comes to") },
    heading(4, say("What it comes to")),
    figures,
    topics,
    levels,
    state,
    findings,
  );

  /** @param {Share[]} shares */
  const lines = (shares) =>
    shares.map(({ name, marks, share }) => {
      const words = marks === 1 ? say("1 mark") : say("{marks} marks", { marks });
      return el("li", {}, el("span", {}, name), bar(share), el("span", {}, words));
    });

  /** @param {Reckoned} reckoned */
  function show({ problems, plan }) {
    node.classList.toggle("nav-old", !plan);
    if (plan) {
      const rows = [
        [say("Time given"), say("{n} min", { n: plan.minutes })],
        [say("Your minutes together"), say("{n} min", { n: plan.meant })],
        [say("Expected time"), say("{n} min", { n: plan.expected })],
        [say("Marks"), say("{marks}, to pass {pass}", { marks: plan.marks, pass: plan.pass_mark })],
      ];
      figures.replaceChildren(
        ...rows.map(([name, words]) => el("li", {}, name, el("b", {}, words))),
      );
      topics.replaceChildren(...lines(plan.topics));
      levels.replaceChildren(...lines(plan.levels));
    }
    const count = problems.length;
    const found = plan?.findings ?? [];
    if (count) state.textContent = say("Not ready: mend what is marked in the form.");
    else if (!plan?.ready) state.textContent = say("Not ready yet:");
    else state.textContent = found.length ? say("Ready. Look at this, too:") : say("Ready to make.");
    node.classList.toggle("nav-not-ready", count > 0 || !plan?.ready);
    findings.replaceChildren(
      ...found.map(({ number, missing, says }) => {
        const words = number ? say("Question {number}: {says}", { number, says }) : says;
        return el("li", { class: missing ? "nav-missing" : "" }, words);
      }),
    );
  }
  return { node, show };
}

/**
 * The files of the open sitting, and how to print them.
 * @param {PaperFace} face @param {(place: string) => void} open @param {() => void} anew
 * @returns {Node[]}
 */
function filesOf({ title, files }, open, anew) {
  const papers = files.filter((one) => one.place.startsWith("papers"));
  const coach = files.filter((one) => !one.place.startsWith("papers"));
  return [
    heading(4, say("Files of “{title}”", { title })),
    fileLists(
      [
        [say("For candidates:"), papers],
        [say("For you:"), coach],
      ],
      open,
    ),
    el("div", { class: "nav-actions" }, button(say("Write these files anew"), anew)),
    el(
      "p",
      { class: "nav-hint" },
      say(
        "Print at 100 %, not “fit to page”, and lay a ruler on the 100 mm bar. Keep the file " +
          "“secret” in that folder: the papers are marked with it.",
      ),
    ),
  ];
}
