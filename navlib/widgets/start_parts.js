// @ts-check
// Parts of the start page: what to do next and where the learner stands, as plain views of a page.

/** @typedef {{to: string, do: string, words: string, reason?: string}} Way */
/** @typedef {{title: string, about: string, to: string, sure: number, kinds: number, tried: number,
 *   since: string, checkpoint: string, passed: boolean, next: Way}} Topic */
/** @typedef {{learner: string, others: string[], note: string, first: boolean, next: Way,
 *   last: null | {to: string, words: string, when: string}, topics: Topic[],
 *   mixed: {to: string, title: string, about: string},
 *   class: {to: string, title: string, about: string},
 *   instructor: {to: string, title: string, about: string},
 *   coach: {to: string, title: string, about: string},
 *   slips: (Way & {says: string})[],
 *   kept: number, file: string, sign: string}} StartPage */

/**
 * A link into a lesson. Its address holds beside the notebook that shows it, wherever that is.
 * @param {string} to @param {string | Node} words @param {Settings} [settings]
 */
function wayTo(to, words, settings = {}) {
  const link = el("a", { href: to, ...settings }, words);
  ownKeys(link);
  return link;
}

/** @param {number} level @param {string} words @param {Settings} [settings] */
const headline = (level, words, settings = {}) =>
  el("div", { class: "nav-title", role: "heading", "aria-level": level, ...settings }, words);

/**
 * A box with its label and the button that sends it; Enter in the box presses the button.
 * @param {string} label @param {any} box @param {any} press
 */
function boxRow(label, box, press) {
  const id = unique("box");
  box.id = id;
  box.addEventListener("keydown", (/** @type {KeyboardEvent} */ event) => {
    if (event.key !== "Enter") return;
    event.preventDefault();
    event.stopPropagation();
    press.click();
  });
  return el(
    "div",
    { class: "nav-box-row" },
    el("label", { for: id }, label),
    el("span", {}, box, press),
  );
}

/** @param {StartPage} page @returns {Node[]} */
function nextView(page) {
  const { next, last, first, learner } = page;
  const hello = first
    ? learner
      ? say("Welcome, {name}", { name: learner })
      : say("Welcome")
    : learner
      ? say("Next for {name}", { name: learner })
      : say("Next for you");
  const go = wayTo(
    next.to,
    el("span", { class: "nav-go-words" }, next.words),
    { class: "nav-go", "data-key": "next" },
  );
  go.append(el("span", { class: "nav-go-why" }, next.reason ?? ""));
  const stopped =
    last &&
    el(
      "p",
      { class: "nav-last" },
      say("Or go on where you stopped {when}:", { when: last.when }),
      " ",
      wayTo(last.to, last.words, { "data-key": "last" }),
    );
  return [headline(2, hello), go, ...(stopped ? [stopped] : [])];
}

/** @param {Topic[]} topics @returns {HTMLElement} what each lesson teaches, for someone new */
function lessonsView(topics) {
  const lines = topics.map(({ title, about, to }) =>
    el("li", {}, wayTo(to, title, { "data-key": `lesson ${to}` }), el("span", {}, about)),
  );
  return el(
    "div",
    { class: "nav-lessons" },
    headline(3, say("What the lessons teach")),
    el("ol", {}, ...lines),
  );
}

/** @param {string} head @param {string} name @param {...(Node | string | null)} inside */
const cell = (head, name, ...inside) =>
  el("td", { role: "cell", class: name, "data-head": head }, ...inside);

/** @param {Topic} topic */
function topicRow(topic) {
  const { title, about, to, sure, kinds, tried, since, checkpoint, passed, next } = topic;
  const counted = say("{sure} of {kinds}", { sure, kinds });
  const bar = el(
    "span",
    { class: "nav-bar", "aria-hidden": "true" },
    el("span", { style: `width: ${(100 * sure) / kinds}%` }),
  );
  return el(
    "tr",
    { role: "row" },
    el(
      "th",
      { role: "rowheader", scope: "row" },
      wayTo(to, title, { "data-key": `topic ${to}` }),
      el("span", { class: "nav-about" }, about),
    ),
    cell(say("Sure"), "nav-sure", el("span", {}, counted), bar),
    cell(say("Tried"), "nav-tried", String(tried || "–")),
    cell(say("Last time"), "nav-since", since || say("not yet")),
    cell(
      say("Checkpoint"),
      "nav-checkpoint",
      passed ? `✓ ${checkpoint}` : checkpoint || say("not yet"),
    ),
    cell(
      say("What next"),
      "nav-next",
      wayTo(next.to, next.do, {
        "data-key": `next ${to}`,
        "aria-label": next.words,
      }),
      el("span", { class: "nav-about" }, next.reason ?? ""),
    ),
  );
}

/** @param {Topic[]} topics @returns {HTMLElement} */
function standingView(topics) {
  const heads = [
    say("Lesson"),
    say("Sure"),
    say("Tried"),
    say("Last time"),
    say("Checkpoint"),
    say("What next"),
  ];
  const head = heads.map((words) => el("th", { role: "columnheader", scope: "col" }, words));
  // The roles are said again, because a table laid out as blocks is no table to some listeners.
  return el(
    "table",
    { class: "nav-standings", role: "table" },
    el(
      "caption",
      {},
      el("span", { class: "nav-title", role: "heading", "aria-level": 3 }, say("Where you stand")),
      el(
        "span",
        { class: "nav-about" },
        say(
          "A kind of question is sure when you had it right twice running, at the first try " +
            "and without a hint.",
        ),
      ),
    ),
    el("thead", { role: "rowgroup" }, el("tr", { role: "row" }, ...head)),
    el("tbody", { role: "rowgroup" }, ...topics.map(topicRow)),
  );
}

/** @param {StartPage["slips"]} slips @returns {HTMLElement[]} */
function slipsView(slips) {
  if (!slips.length) return [];
  const lines = slips.map(({ says, to, words }, n) =>
    el("li", {}, says, " ", wayTo(to, words, { "data-key": `slip ${n}` })),
  );
  return [
    el(
      "div",
      { class: "nav-slips" },
      headline(3, say("Slips that came back")),
      el("ul", {}, ...lines),
    ),
  ];
}

/** @param {StartPage} page @returns {Node[]} */
function upperView(page) {
  const { mixed, class: together, instructor, coach } = page;
  const more = el(
    "ul",
    { class: "nav-more" },
    el("li", {}, wayTo(mixed.to, mixed.title, { "data-key": "mixed" }), `: ${mixed.about}`),
    el(
      "li",
      {},
      wayTo("glossary.ipynb", say("Glossary"), { "data-key": "glossary" }),
      `: ${say("What the words of the trade mean.")}`,
    ),
    el("li", {}, wayTo(together.to, together.title, { "data-key": "class" }), `: ${together.about}`),
    el(
      "li",
      {},
      wayTo(instructor.to, instructor.title, { "data-key": "instructor" }),
      `: ${instructor.about}`,
    ),
    el("li", {}, wayTo(coach.to, coach.title, { "data-key": "coach" }), `: ${coach.about}`),
  );
  const standing = page.first ? lessonsView(page.topics) : standingView(page.topics);
  return [...nextView(page), standing, ...slipsView(page.slips), more];
}
