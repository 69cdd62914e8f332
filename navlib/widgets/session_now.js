// @ts-check
// What the instructor sees of the session that runs: the plan, the answers, who is stuck, who is here.

/** @typedef {{n: number, what: string, title: string, minutes: number, notes: string,
 *   kind: string | null, demonstration: string | null,
 *   question: {id: number, state: string, in: number} | null}} SegmentRow */
/** @typedef {{shown: string, seat: number, why: string, since: string | null}} StuckRow */
/** @typedef {{name: string, shown: string, seat: number, outcome?: string | null,
 *   confirmed?: boolean, tries?: number}} PersonRow */
/** @typedef {{face: ScreenFace, session: {id: number, number: number, title: string},
 *   segments: SegmentRow[], notes: string, stuck: StuckRow[], people: PersonRow[],
 *   outcomes: Record<string, number>, slips: Slip[]}} RunFace */
/** @typedef {(action: string, content?: Record<string, any>) => Promise<Reply>} Ask */

/** @type {Record<string, string>} */
const WHYS = {
  "nothing yet": say("no answer yet"),
  "not read": say("the answer cannot be read"),
  "wrong again": say("wrong more than once"),
};

/** @type {Record<string, string>} */
const STANDS = {
  planned: say("not open yet"),
  open: say("open"),
  closed: say("closed"),
  revealed: say("revealed"),
};

/** Put rows into a list, and leave it alone while nothing has changed: the keyboard may be in it. */
function listView(/** @type {any} */ list) {
  let known = "";
  /** @param {any} content @param {() => Node[]} make */
  return (content, make) => {
    const now = JSON.stringify(content);
    if (now === known) return;
    known = now;
    const held = document.activeElement;
    const key = held instanceof HTMLElement && list.contains(held) ? held.dataset.key : undefined;
    list.replaceChildren(...make());
    if (key) list.querySelector(`[data-key="${CSS.escape(key)}"]`)?.focus({ preventScroll: true });
  };
}

/** @param {Ask} ask */
function segmentsView(ask) {
  const list = el("ol", { class: "nav-step-rows" });
  const fill = listView(list);
  const node = el("section", { "aria-label": say("The plan") }, heading(4, say("Plan")), list);
  /** @param {SegmentRow} row @param {boolean} current */
  function line_({ n, what, title, minutes, question }, current) {
    const stands = question ? STANDS[question.state] : "";
    const words = question?.in ? `${stands}, ${answersWords(question.in)}` : stands;
    const asked = words ? el("span", { class: "nav-hint" }, words) : null;
    return el(
      "li",
      {},
      el(
        "button",
        {
          type: "button",
          class: "nav-step-row",
          "aria-current": current ? "step" : null,
          "data-key": `segment ${n}`,
          click: () => ask("deed", { deed: "go", given: { n } }),
        },
        el("span", { class: "nav-step-title" }, title || SORTS[what]),
        el("span", { class: "nav-hint" }, say("{what}, {minutes} min", { what: SORTS[what], minutes })),
        asked,
      ),
    );
  }
  return {
    node,
    /** @param {RunFace} now */
    update({ segments, face }) {
      const at = face.segment?.n ?? null;
      node.hidden = !segments.length;
      fill([segments, at], () => segments.map((row) => line_(row, row.n === at)));
    },
  };
}

/** @param {Slip[]} slips @returns {Node[]} */
const slipRows = (slips) =>
  slips.map(({ count, says }) =>
    el("li", {}, el("b", {}, say("{count} ×", { count })), ` ${says.join(" ")}`),
  );

/** The question that is asked, and what came in so far. */
function askedView() {
  const notes = el("div", { class: "nav-notes" });
  const title = heading(4, "");
  const state = el("p", { class: "nav-asked-state", role: "status" });
  const text = el("details", { class: "nav-asked-text" });
  const outcomes = el("ul", { class: "nav-outcomes" });
  const slips = el("ul", { class: "nav-slips-so-far" });
  const slipsHead = el("p", { class: "nav-hint" }, say("Slips so far"));
  const pair = el("div", { class: "nav-pair-note" });
  const asked = el("div", {}, title, state, outcomes, slipsHead, slips, pair, text);
  const none = el("p", { class: "nav-hint" }, say("No question is asked now."));
  const node = el("section", { "aria-label": say("Now") }, notes, asked, none);
  const fillText = listView(text);

  /** @param {RunFace} now */
  function update({ face, notes: words, outcomes: counts, slips: found }) {
    const { question } = face;
    notes.replaceChildren(...(words ? paragraphs(words) : []));
    notes.hidden = !words;
    asked.hidden = !question;
    none.hidden = Boolean(question);
    if (!question) return;
    title.textContent = question.title;
    state.textContent = `${STANDS[question.state]}. ${cameIn(question)}. ${ownWords(question)}`;
    outcomes.replaceChildren(
      ...Object.entries(counts)
        .filter(([, count]) => count)
        .map(([outcome, count]) => {
          const [sign, called] = OUTCOMES[outcome] ?? ["", outcome];
          return el("li", { "data-outcome": outcome }, `${sign} `, el("b", {}, String(count)), ` ${called}`);
        }),
    );
    slipsHead.hidden = slips.hidden = !found.length;
    slips.replaceChildren(...slipRows(found));
    pair.replaceChildren(...pairNote(question));
    fillText([question.id, question.seat], () => [
      el("summary", { tabindex: 0 }, say("The question")),
      ...paragraphs(question.text),
      ...tableView(question.table),
    ]);
  }
  return { node, update };
}

/** @param {AskedNow} question @returns {Node[]} what became of the two that are on the screen */
function pairNote({ id, pair }) {
  if (!pair) return [];
  const shown = id % 2 ? [...pair].reverse() : pair;
  return shown.map(({ answers, outcome, says }, n) => {
    const [sign, called] = OUTCOMES[outcome] ?? ["", outcome];
    const given = Object.values(answers).join(", ");
    return el("p", {}, el("b", {}, n ? "B: " : "A: "), `${given}. ${sign} ${called}. ${says.join(" ")}`);
  });
}

/** @param {string | null} since @param {number} now  ms @returns {string} */
function sinceWords(since, now) {
  const minutes = since ? Math.max(0, Math.floor((now - Date.parse(since)) / 60000)) : 0;
  return minutes < 1 ? say("for less than a minute") : say("for {minutes} min", { minutes });
}

/** So many who have not answered are named; more are only counted: the class is still at work. */
const NAMED_AT_MOST = 6;

/** @param {Ask} ask @param {() => number} now  the time by the program's clock, ms */
function peopleView(ask, now) {
  const stuck = el("ul", { class: "nav-stuck" });
  const nobody = el("p", { class: "nav-hint" }, say("Nobody that we know of."));
  const here = el("ul", { class: "nav-who-is-here" });
  const hereTitle = heading(4, "");
  const pins = button(say("PINs"), () => showPins(), { class: "nav-button nav-small", "aria-pressed": "false" });
  const fill = listView(here);
  const node = el(
    "section",
    { "aria-label": say("The class") },
    heading(4, say("Who is stuck")),
    el("p", { class: "nav-hint" }, say("Only you see this.")),
    stuck,
    nobody,
    el("div", { class: "nav-here-head" }, hereTitle, pins),
    here,
  );
  /** Whether what can be done about a PIN stands beside each name. */
  function showPins() {
    const shown = here.classList.toggle("nav-with-pins");
    set(pins, { "aria-pressed": String(shown) });
  }
  /** @param {PersonRow} row @param {boolean} server */
  function person({ name, shown, seat, outcome, confirmed }, server) {
    const [sign, called] = OUTCOMES[outcome ?? ""] ?? ["", ""];
    /** @param {string} deed @param {string} words */
    const pin = (deed, words) =>
      button(words, () => ask(deed, { name }), {
        class: "nav-button nav-small",
        "aria-label": `${shown}: ${words}`,
        "data-key": `${deed} ${name}`,
      });
    return el(
      "li",
      {},
      el("span", { class: "nav-seat" }, String(seat)),
      el("span", { class: "nav-who" }, shown),
      el("span", { class: "nav-what", title: called, "data-outcome": outcome ?? null }, sign),
      server
        ? el(
            "span",
            { class: "nav-of-pin" },
            confirmed ? el("span", { class: "nav-hint" }, say("confirmed")) : pin("confirm", say("Confirm")),
            pin("clear", say("Clear the PIN")),
          )
        : null,
    );
  }
  return {
    node,
    /** @param {RunFace} run @param {boolean} server */
    update({ stuck: found, people, face }, server) {
      nobody.hidden = found.length > 0;
      const waiting = found.filter((one) => one.why === "nothing yet");
      const many = waiting.length > NAMED_AT_MOST;
      const named = many ? found.filter((one) => one.why !== "nothing yet") : found;
      const count = waiting.length;
      stuck.replaceChildren(
        ...(many ? [el("li", {}, say("{count} have no answer yet.", { count }))] : []),
        ...named.map(({ shown, seat, why, since }) =>
          el(
            "li",
            {},
            el("b", {}, shown || say("Seat {seat}", { seat })),
            el("span", {}, say("{why}, {since}", { why: WHYS[why] ?? why, since: sinceWords(since, now()) })),
          ),
        ),
      );
      pins.hidden = !server;
      hereTitle.textContent = say("Here: {count}", { count: face.joined });
      fill([people, server], () => people.map((row) => person(row, server)));
    },
  };
}
