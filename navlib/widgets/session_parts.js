// @ts-check
// What the instructor's desk and the projector share: the clock, the marks of answers, the keys.

/** @typedef {{ends: string | null, left_s: number}} Clock */
/** @typedef {{n: number, of: number, what: string, title: string, minutes: number,
 *   demonstration: string | null}} Segment */
/** @typedef {{name: string, prompt: string, example: string, options: [string, string][] | null}} Asked */
/** @typedef {{off: number | null, text: string | null, outcome: string | null}} Given */
/** @typedef {{name: string, prompt: string, unit: string, band: {full: number, part: number},
 *   answers: Given[], key: string | null}} Spread */
/** @typedef {{name: string, prompt: string, options: {value: string, words: string, count: number,
 *   right: boolean | null}[]}} Choices */
/** @typedef {{name: string, count: number, says: string[]}} Slip */
/** @typedef {{text: string, answers: Record<string, string>, outcome: string, says: string[]}} OfPair */
/** @typedef {{working: string[], parts: Record<string, {answer: string, band: string}>}} Worked */
/** @typedef {{id: number, state: string, own: boolean, title: string, text: string,
 *   table: Table | null, parts: Asked[], picture: boolean, seat: number | null, in: number,
 *   joined: number, spread: Spread[] | null, choices: Choices[] | null, slips: Slip[] | null,
 *   pair: OfPair[] | null, working: Worked | null,
 *   people: {shown: string, outcome: string | null}[] | null}} AskedNow */
/** @typedef {{title: string, word: string, segment: Segment | null,
 *   next: {what: string, title: string, minutes: number} | null, clock: Clock, joined: number,
 *   ended: boolean, question: AskedNow | null}} ScreenFace */

/** Sign and words of each outcome. @type {Record<string, [string, string]>} */
const OUTCOMES = {
  right: ["●", say("right")],
  carried: ["◉", say("right from an earlier slip on")],
  near: ["◆", say("near")],
  wrong: ["▲", say("not right")],
  unread: ["?", say("cannot be read")],
};

/** What a segment is called by those who see it. @type {Record<string, string>} */
const SORTS = {
  demonstrate: say("Watch"),
  "work alone": say("Work alone"),
  "compare in pairs": say("Compare in pairs"),
  vote: say("Vote"),
  reveal: say("What came of it"),
  break: say("Break"),
};

/** @param {number} count @returns {string} */
const answersWords = (count) => (count === 1 ? say("1 answer") : say("{count} answers", { count }));

/** Time --------------------------------------------------------------------------------------- */

/** @param {number} seconds  below zero it is over time @returns {string} */
function digits(seconds) {
  const whole = Math.abs(Math.round(seconds));
  const minutes = String(Math.floor(whole / 60)).padStart(2, "0");
  const rest = String(whole % 60).padStart(2, "0");
  return `${seconds <= -0.5 ? "+" : ""}${minutes}:${rest}`;
}

/**
 * A clock that runs by itself between two words from the program.
 * @param {string} label
 */
function clockView(label) {
  const figures_ = el("span", { class: "nav-digits" });
  const words = el("span", { class: "nav-clock-words" });
  const node = el("div", { class: "nav-clock", role: "timer", "aria-label": label }, figures_, words);
  /** How far this machine's clock is ahead of the program's, ms. */
  let ahead = 0;
  /** @type {Clock} */
  let clock = { ends: null, left_s: 0 };

  function show() {
    const running = clock.ends !== null;
    const left = running
      ? (Date.parse(clock.ends ?? "") - (Date.now() - ahead)) / 1000
      : clock.left_s;
    const over = running && left < 0;
    figures_.textContent = digits(left);
    words.textContent = over ? say("over time") : running ? "" : say("paused");
    set(node, { "data-clock": over ? "over" : running ? "running" : "paused" });
  }

  const ticking = window.setInterval(show, 250);
  return {
    node,
    /** @param {Clock} now */
    set(now) {
      clock = now;
      show();
    },
    /** @param {string} moment  the time by the program's clock, as it is now */
    tell(moment) {
      ahead = Date.now() - Date.parse(moment);
      show();
    },
    close: () => window.clearInterval(ticking),
  };
}

/** Answers that came in ----------------------------------------------------------------------- */

const MARKS_AT_MOST = 40;

/** @param {number} count @param {number} of @returns {HTMLElement} a mark for each, the answered full */
function marksView(count, of) {
  const each = Math.max(1, Math.ceil(of / MARKS_AT_MOST));
  const marks = Array.from({ length: Math.ceil(of / each) }, (_, n) =>
    el("span", { class: n < Math.floor(count / each) ? "nav-in" : "" }),
  );
  return el("span", { class: "nav-in-marks", "aria-hidden": "true" }, ...marks);
}

/** @param {AskedNow} question @returns {string} */
const cameIn = ({ in: count, joined: of }) =>
  of ? say("{count} of {of} answers are in", { count, of }) : say("Nobody has joined yet");

/** @param {AskedNow} question @returns {string} whose numbers are shown */
function ownWords({ own, seat }) {
  if (!own) return say("The same numbers for everybody.");
  if (seat === null) return say("Everybody has own numbers.");
  return say("Everybody has own numbers. These are those of seat {seat}.", { seat });
}

/** Keys --------------------------------------------------------------------------------------- */

/** @typedef {{keys: string[], name: string, action: string, words: string, about: string}} Key */
/** What the keys do, here and on the projector. @type {Key[]} */
const KEYS = [
  {
    keys: [" ", "PageDown"],
    name: say("Space"),
    action: "next",
    words: say("next"),
    about: say("go on in the plan; so does Page Down, and a hand-held presenter"),
  },
  { keys: ["PageUp"], name: say("Page Up"), action: "back", words: say("back"), about: say("go back in the plan") },
  { keys: ["o"], name: "O", action: "open", words: say("open"), about: say("open the question for answers") },
  { keys: ["c"], name: "C", action: "close", words: say("close"), about: say("take no more answers") },
  { keys: ["r"], name: "R", action: "reveal", words: say("reveal"), about: say("show the answer and the working") },
  { keys: ["s"], name: "S", action: "spread", words: say("spread"), about: say("show how the answers lie") },
  { keys: ["a"], name: "A", action: "pair", words: say("pair"), about: say("show two answers to argue about") },
  { keys: ["p"], name: "P", action: "clock", words: say("clock"), about: say("stop the clock, or let it run") },
  { keys: ["+"], name: "+", action: "more", words: say("more time"), about: say("give five more minutes") },
];

/** @param {EventTarget | null} target @param {string} key @returns {boolean} whether a key is its own */
function keepsKey(target, key) {
  if (!(target instanceof HTMLElement)) return false;
  if (target.matches("select, textarea")) return true;
  if (key.startsWith("Page")) return false; // a presenter in the hand sends these, wherever one is
  if (target.matches("input:not([type=checkbox], [type=range]), [contenteditable=true]")) return true;
  return key === " " && target.matches("button, summary, input, a, [role=slider]");
}

/**
 * @param {KeyboardEvent} event @param {Key[]} [keys]
 * @returns {Key | undefined} what is asked for by a key, if it is not somebody else's
 */
function keyed(event, keys = KEYS) {
  if (event.ctrlKey || event.altKey || event.metaKey || event.repeat) return undefined;
  if (keepsKey(event.target, event.key)) return undefined;
  const key = event.key.length === 1 ? event.key.toLowerCase() : event.key;
  return keys.find((one) => one.keys.includes(key));
}

/** @param {string} action @param {Clock | undefined} clock @returns {[string, Record<string, any>]} the deed */
function deedOf(action, clock) {
  if (action === "clock") return [clock?.ends ? "pause" : "run", {}];
  return action === "more" ? ["more", { minutes: 5 }] : [action, {}];
}

/** @param {Key[]} keys @returns {HTMLElement} */
const keysView = (keys) =>
  el(
    "dl",
    { class: "nav-key-list" },
    ...keys.map(({ name, about }) => el("div", {}, el("dt", {}, el("kbd", {}, name)), el("dd", {}, about))),
  );

/** The sheet ---------------------------------------------------------------------------------- */

/**
 * The sheet of a question, to be looked at.
 * @param {{svg: string, alt: string}} picture
 */
function sheetImage({ svg, alt }) {
  // As an image the drawing runs no script, and its names cannot clash with another sheet's.
  const address = URL.createObjectURL(new Blob([svg], { type: "image/svg+xml" }));
  const node = el("figure", { class: "nav-board-sheet" }, el("img", { src: address, alt }));
  return { node, close: () => URL.revokeObjectURL(address) };
}
