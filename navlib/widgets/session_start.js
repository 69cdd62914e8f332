// @ts-check
// Beginning a session, going on with one that runs, and having the values of an earlier one again.

/** @typedef {{id: number, number: number, title: string, begun: string, ended: string | null,
 *   joined: number, questions: number}} SessionRow */
/** @typedef {{name: string, title: string, minutes: number}} PlanRow */

const SHOWN_SESSIONS = 8;

/** @param {string} moment  ISO @returns {string} day and time, as this browser writes them */
const dayWords = (moment) =>
  new Date(moment).toLocaleString([], { dateStyle: "medium", timeStyle: "short" });

/** @param {number} count @returns {string} */
const learnersWords = (count) =>
  count === 1 ? say("1 learner") : say("{count} learners", { count });

/**
 * The form with which a session begins.
 * @param {(action: string, content: Record<string, any>) => void} ask
 */
function startView(ask) {
  /** @type {PlanRow[]} */
  let plans = [];
  const plan = field(say("Plan"), el("select"), { name: "nav-long" });
  const title = field(say("Title, as the class sees it"), textBox({ maxlength: 80 }), { name: "nav-long" });
  const number = field(
    say("Number, to have its values again"),
    textBox({ inputmode: "numeric", maxlength: 12, placeholder: say("new values") }),
  );
  const numberHint = el(
    "p",
    { class: "nav-hint" },
    say("Give a number if you printed work cards, or repeat a session: every seat then has those values."),
  );
  const begin = button(say("Begin the session"), () =>
    ask("begin", { plan: plan.box.value, title: title.box.value, number: number.box.value }), {
    class: "nav-button nav-first",
  });
  const running = el("div", { class: "nav-running" });
  const earlier = el("details", { class: "nav-earlier" });
  const node = el(
    "div",
    { class: "nav-start-session" },
    running,
    heading(4, say("Begin a session")),
    el("div", { class: "nav-fields" }, plan.node, title.node, number.node),
    numberHint,
    el("div", { class: "nav-actions" }, begin),
    earlier,
  );

  function titled() {
    const found = plans.find((one) => one.name === plan.box.value);
    title.box.placeholder = found?.title ?? say("An evening");
  }

  /** @param {PlanRow[]} now */
  function choose(now) {
    if (JSON.stringify(now) === JSON.stringify(plans)) return;
    plans = now;
    const held = plan.box.value;
    plan.box.replaceChildren(
      ...plans.map(({ name, title: called, minutes }) =>
        el("option", { value: name }, say("{title} ({minutes} min)", { title: called, minutes })),
      ),
      el("option", { value: "" }, say("Without a plan: ask as it comes")),
    );
    if (plans.some((one) => one.name === held)) plan.box.value = held;
    titled();
  }
  plan.box.addEventListener("change", titled);

  /** @param {SessionRow} row */
  function runningRow({ id, title: called, begun, joined }) {
    const words = say("{title}, begun {when}, {learners}", {
      title: called,
      when: dayWords(begun),
      learners: learnersWords(joined),
    });
    return el(
      "li",
      {},
      el("span", {}, words),
      button(say("Go on with it"), () => ask("open", { session: id }), {
        class: "nav-button nav-first",
        "aria-label": say("Go on with {title}", { title: called }),
      }),
      button(say("End it"), () => ask("end", { session: id }), {
        "aria-label": say("End {title}", { title: called }),
      }),
    );
  }

  /** @param {SessionRow} row */
  function earlierRow({ title: called, number: known, begun, joined }) {
    const values = { title: called, when: dayWords(begun), learners: learnersWords(joined), number: known };
    return el(
      "li",
      {},
      el("span", {}, say("{title}, {when}, {learners}. Number {number}.", values)),
      button(
        say("Same values again"),
        () => {
          number.box.value = String(known);
          title.box.value = called;
          begin.focus();
        },
        {
          class: "nav-button nav-small",
          "aria-label": say("Same values again as in {title}, {when}", values),
        },
      ),
    );
  }

  /** @param {SessionRow[]} sessions @param {PlanRow[]} known */
  function update(sessions, known) {
    choose(known);
    const now = sessions.filter((one) => !one.ended);
    const before = sessions.filter((one) => one.ended).slice(0, SHOWN_SESSIONS);
    running.hidden = !now.length;
    running.replaceChildren(
      heading(4, say("Running now")),
      el("ul", {}, ...now.map(runningRow)),
      el(
        "p",
        { class: "nav-hint", hidden: now.length < 2 },
        say("The projector and the learners follow the one begun last. End the others."),
      ),
    );
    earlier.hidden = !before.length;
    const open = earlier.open;
    earlier.replaceChildren(
      el("summary", { tabindex: 0 }, say("Earlier sessions")),
      el("ul", {}, ...before.map(earlierRow)),
    );
    earlier.open = open;
  }
  return {
    node,
    update,
    clear() {
      number.box.value = title.box.value = "";
    },
  };
}
