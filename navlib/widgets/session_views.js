// @ts-check
// What the projector shows of a session, one function a view. Nothing here knows who a learner is.

/** @typedef {{face: Partial<ScreenFace>, sheet: HTMLElement | null, verdicts: boolean}} Shown */

/** @param {string} words @param {Settings} [settings] */
const large = (words, settings = {}) =>
  el("div", { class: "nav-large-words", role: "heading", "aria-level": 2, ...settings }, words);

/** @param {Partial<ScreenFace>} face @returns {string} the name of what is to be seen now */
function viewOf({ title, ended, segment, question }) {
  if (!title) return "waiting";
  if (ended) return "ended";
  if (question?.pair) return "pair";
  if (question?.state === "revealed") return "revealed";
  if (question && (question.spread || question.choices)) return "spread";
  if (question) return "question";
  if (segment?.what === "break") return "break";
  if (segment?.demonstration) return "demonstration";
  return segment ? "segment" : "joining";
}

/** @type {Record<string, (shown: Shown) => (Node | null)[]>} */
const VIEWS = {
  waiting: () => [
    large(say("No session is running yet")),
    el("p", {}, say("Begin one on the instructor’s page. This page follows by itself.")),
  ],
  joining: ({ face }) => joiningView(face),
  segment: ({ face: { segment } }) => [large(segment?.title || SORTS[segment?.what ?? ""])],
  demonstration: () => [],
  break: ({ face }) => [
    large(face.segment?.title || say("Break")),
    face.next
      ? el("p", {}, say("Afterwards: {title}", { title: face.next.title || SORTS[face.next.what] }))
      : null,
  ],
  ended: ({ face }) => [
    large(say("That was it for today")),
    el("p", {}, say("Thank you. Your answers are kept.")),
    el("p", { class: "nav-dim" }, face.title ?? ""),
  ],
  question: ({ face, sheet }) => questionView(face, sheet),
  spread: ({ face }) => spreadPage(face),
  revealed: ({ face, sheet }) => revealedView(face, sheet),
  pair: ({ face, verdicts }) => pairView(face, verdicts),
};

/**
 * How one comes in; an address that means this machine alone is not shown.
 * @param {Partial<ScreenFace>} face @returns {(Node | null)[]}
 */
function joiningView({ title = "", word = "", joined = 0 }) {
  const reachable = !/^(localhost$|127\.|\[::1\])/.test(location.hostname);
  return [
    large(title),
    word && reachable ? el("p", {}, say("Open {address}", { address: location.host })) : null,
    word ? el("p", { class: "nav-word" }, say("The class word: {word}", { word })) : null,
    el("p", {}, joined === 1 ? say("1 learner has joined.") : say("{joined} learners have joined.", { joined })),
  ];
}

/** @param {AskedNow} question @returns {HTMLElement} */
const askedText = ({ text }) => el("div", { class: "nav-text" }, ...paragraphs(text));

/** @param {AskedNow} question @returns {HTMLElement[]} how each answer is written, or what to choose from */
function writeWords({ parts }) {
  return parts.map(({ prompt, example, options }) =>
    el(
      "div",
      { class: "nav-to-write" },
      el("p", {}, el("b", {}, prompt), example ? ` ${say("Write it like this: {example}", { example })}` : ""),
      options
        ? el("ul", { class: "nav-letters" }, ...options.map(([key, words]) => el("li", {}, optionWords(key, words))))
        : "",
    ),
  );
}

/** @param {string} key @param {string} words */
const optionWords = (key, words) => (key.length === 1 && key !== words ? `${key}) ${words}` : words);

/** @param {Partial<ScreenFace>} face @param {HTMLElement | null} sheet @returns {(Node | null)[]} */
function questionView({ question, segment }, sheet) {
  if (!question) return [];
  const lead =
    segment?.what === "compare in pairs"
      ? el("p", { class: "nav-lead" }, say("Tell your neighbour how you went about it. Where do you differ?"))
      : null;
  const write = writeWords(question);
  const table = tableView(question.table);
  const chosen = question.parts.some((part) => part.options);
  // What takes room stands beside the words: the sheet, or else the table, or what is chosen from.
  const beside = sheet ? [sheet] : chosen ? (table.length ? table : write) : [];
  const below = [...table, ...write].filter((one) => !beside.includes(one));
  const words = el(
    "div",
    { class: "nav-words-side" },
    lead,
    askedText(question),
    ...below,
    el("p", { class: "nav-own" }, ownWords(question)),
    namesView(question),
  );
  if (!beside.length) return [words];
  return [el("div", { class: sheet ? "nav-beside" : "nav-halves" }, words, el("div", {}, ...beside))];
}

/** @param {Partial<ScreenFace>} face @returns {(Node | null)[]} before the reveal: nothing tells the key */
function spreadPage({ question }) {
  if (!question) return [];
  return [
    el("div", { class: "nav-text nav-smaller" }, ...paragraphs(question.text)),
    ...pictureOf(question),
    namesView(question),
  ];
}

/** @param {AskedNow} question @returns {Node[]} */
function pictureOf(question) {
  const { spread, choices } = question;
  return [
    ...(spread?.length ? spreadView(question) : []),
    ...(choices?.length ? choicesView(choices) : []),
  ];
}

/** @param {AskedNow} question @returns {Node | null} */
function keyView({ working, parts, own, seat }) {
  if (!working) return null;
  const whose = own && seat !== null ? say("For seat {seat}:", { seat }) : "";
  const lines = parts.map(({ name, prompt }) => {
    const { answer = "", band = "" } = working.parts[name] ?? {};
    return el("p", {}, `${prompt}: `, el("b", {}, answer), band ? el("span", { class: "nav-dim" }, ` ± ${band}`) : "");
  });
  return el("div", { class: "nav-key-answer" }, whose ? el("p", { class: "nav-dim" }, whose) : null, ...lines);
}

const SLIPS_AT_MOST = 3;

/** @param {Slip[] | null} slips @returns {Node | null} */
function slipsList(slips) {
  if (!slips?.length) return null;
  const lines = slips
    .slice(0, SLIPS_AT_MOST)
    .map(({ count, says }) =>
      el("li", {}, el("b", { class: "nav-times" }, say("{count} ×", { count })), el("span", {}, says.join(" "))),
    );
  const rest = slips.slice(SLIPS_AT_MOST).reduce((sum, one) => sum + one.count, 0);
  return el(
    "div",
    { class: "nav-slips-found" },
    el("p", { class: "nav-lead" }, say("Slips that were made")),
    el("ul", {}, ...lines),
    rest ? el("p", { class: "nav-dim" }, say("And others: {rest}.", { rest })) : null,
  );
}

/** @param {Partial<ScreenFace>} face @param {HTMLElement | null} sheet @returns {(Node | null)[]} */
function revealedView({ question }, sheet) {
  if (!question) return [];
  const steps = question.working?.working ?? [];
  const shown = pictureOf(question);
  const left = el(
    "div",
    { class: "nav-words-side" },
    el("div", { class: "nav-text nav-smaller" }, ...paragraphs(question.text)),
    ...(shown.length ? shown : [...tableView(question.table), ...(sheet ? [sheet] : [])]),
  );
  const right = el(
    "div",
    { class: "nav-words-side" },
    keyView(question),
    el("ol", { class: "nav-worked-lines" }, ...steps.map((words) => el("li", {}, words))),
    slipsList(question.slips),
  );
  return [el("div", { class: "nav-halves" }, left, right), namesView(question)];
}

/** @param {Partial<ScreenFace>} face @param {boolean} verdicts @returns {(Node | null)[]} */
function pairView({ question }, verdicts) {
  if (!question?.pair) return [];
  // Which of the two stands first must tell nothing; it stays the same for a question.
  const pair = question.id % 2 ? [...question.pair].reverse() : question.pair;
  const prompts = Object.fromEntries(question.parts.map(({ name, prompt }) => [name, prompt]));
  const cards = pair.map((one, n) => {
    const [sign, words] = OUTCOMES[one.outcome] ?? ["", one.outcome];
    const answers = Object.entries(one.answers).map(([name, text]) =>
      el("p", { class: "nav-their-answer" }, el("span", {}, `${prompts[name] ?? name}: `), el("b", {}, text)),
    );
    return el(
      "article",
      { class: "nav-of-pair", "data-outcome": verdicts ? one.outcome : null },
      el("p", { class: "nav-letter-of" }, n ? "B" : "A"),
      question.own ? el("div", { class: "nav-text nav-smaller" }, ...paragraphs(one.text)) : null,
      ...answers,
      ...(verdicts
        ? [el("p", { class: "nav-what-became" }, `${sign} ${words}`), el("p", { class: "nav-smaller" }, one.says.join(" "))]
        : []),
    );
  });
  return [
    question.own ? null : el("div", { class: "nav-text nav-smaller" }, ...paragraphs(question.text)),
    el("p", { class: "nav-lead" }, say("Two answers from the class. Which one holds, and what did the other do?")),
    el("div", { class: "nav-pair" }, ...cards),
    el("p", { class: "nav-dim" }, verdicts ? "" : say("R shows what became of them.")),
  ];
}

/** Only when the instructor has asked for names. @param {AskedNow} question @returns {Node | null} */
function namesView({ people, state }) {
  if (!people?.length) return null;
  const names = people.map(({ shown, outcome }) => {
    const [sign, words] = OUTCOMES[outcome ?? ""] ?? ["", ""];
    const told = state === "revealed" && words;
    return el(
      "li",
      { "data-in": outcome ? "true" : null },
      told ? el("span", { role: "img", "aria-label": words }, sign) : null,
      ` ${shown}`,
    );
  });
  return el("ul", { class: "nav-names", "aria-label": say("Names") }, ...names);
}
