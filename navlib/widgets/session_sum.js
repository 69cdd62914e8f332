// @ts-check
// What the plan in the form comes to: its minutes against the evening, and what a colleague would say.

/** @typedef {{problems: {place: string, says: string}[], minutes: number, length: number,
 *   balance: string, fits: boolean, questions: number | null, times: string[], end: string,
 *   sorts: {what: string, minutes: number, share: number}[], findings: string[]}} Summed */

/** @param {() => [string, string][]} whats  what segments are called */
function sumView(whats) {
  const total = el("p", { class: "nav-sum-total" });
  const balance = el("p", { class: "nav-balance" });
  const meter = el("div", { class: "nav-filled", "aria-hidden": "true" }, el("span", {}));
  const figures_ = el("ul", { class: "nav-figures" });
  const sorts = el("ul", { class: "nav-shares" });
  const state = el("p", { class: "nav-state", role: "status", "aria-live": "polite" });
  const findings = el("ul", { class: "nav-findings" });
  const node = el(
    "aside",
    { class: "nav-plan nav-sum", "aria-label": say("What it comes to") },
    heading(4, say("What it comes to")),
    total,
    meter,
    balance,
    figures_,
    sorts,
    state,
    findings,
  );

  /** @param {Summed} summed */
  function show({ problems, minutes, length, balance: words, fits, questions, end, ...rest }) {
    total.textContent = length
      ? say("{minutes} of {length} min", { minutes, length })
      : say("{minutes} min", { minutes });
    balance.textContent = words;
    const share = length ? Math.min(1, minutes / length) : 1;
    meter.firstElementChild?.setAttribute("style", `width: ${Math.round(100 * share)}%`);
    node.classList.toggle("nav-over", !fits);
    const rows = [[say("It ends at"), end]];
    if (questions !== null) rows.push([say("Questions"), String(questions)]);
    figures_.replaceChildren(...rows.map(([name, told]) => el("li", {}, name, el("b", {}, told))));
    const called = new Map(whats());
    sorts.replaceChildren(
      ...rest.sorts.map((one) =>
        el(
          "li",
          {},
          el("span", {}, called.get(one.what) ?? one.what),
          bar(one.share),
          el("span", {}, say("{minutes} min", { minutes: one.minutes })),
        ),
      ),
    );
    if (problems.length) state.textContent = say("Not ready: mend what is marked in the form.");
    else if (!fits || rest.findings.length) state.textContent = say("Ready. Look at this, too:");
    else state.textContent = say("Ready.");
    node.classList.toggle("nav-not-ready", problems.length > 0);
    const told = fits || problems.length ? rest.findings : [words, ...rest.findings];
    findings.replaceChildren(...told.map((says) => el("li", {}, says)));
  }
  return { node, show };
}
