// @ts-check
// The sheet on deck: folded into a case, not square to the learner, nudged by waves, and timed.

/** `turn` is how the case lies, degrees clockwise; the sheet has creases into `columns` and `rows`,
 * and `at` is the panel at the upper left of what is in sight. The same `seed`, the same waves.
 * @typedef {{turn: number, seed: number, columns: number, rows: number, at: [number, number]}} Deck */

/** Panels in sight each way: there is always a crease to measure across. */
const PANELS = 2;
/** Most that a case lies turned, and least and most time between two waves. */
const MOST_TURN = 18;
const WAVES_MS = [9000, 22000];

/** @param {number} seed @returns {() => number} numbers from 0 to 1, the same for the same seed */
function dice(seed) {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

/** @param {number} seconds @returns {string} */
const timeWords = (seconds) =>
  seconds < 60
    ? say("{seconds} s", { seconds })
    : say("{minutes} min {seconds} s", { minutes: Math.floor(seconds / 60), seconds: seconds % 60 });

const TIMER_OFF = "nav-deck-timer-off";

/** @returns {boolean} whether the learner wants to see the time */
function wantsTimer() {
  try {
    return !localStorage.getItem(TIMER_OFF);
  } catch {
    return true;
  }
}

/** @param {boolean} wanted */
function keepTimer(wanted) {
  try {
    if (wanted) localStorage.removeItem(TIMER_OFF);
    else localStorage.setItem(TIMER_OFF, "1");
  } catch {
    // A browser that keeps nothing asks again next time.
  }
}

/**
 * The chart table on deck; `done` says that the work is over, or goes on.
 * @param {Picture & {deck: Deck}} picture
 * @param {Parameters<typeof chartTable>[1]} told
 */
function deckTable(picture, told) {
  const table = chartTable(picture, told);
  const { sheet } = table;
  const { deck } = picture;
  const next = dice(deck.seed);
  const still = matchMedia("(prefers-reduced-motion: reduce)").matches;
  const said = el("span", { class: "nav-deck-said", role: "status", "aria-live": "polite" });
  sheet.node.classList.add("nav-on-deck");

  // The fold ----------------------------------------------------------------------------------------

  const panel = { width: sheet.size.width / deck.columns, height: sheet.size.height / deck.rows };
  const most = [Math.max(deck.columns - PANELS, 0), Math.max(deck.rows - PANELS, 0)];
  let [column, row] = deck.at;
  let turn = deck.turn;
  /** @type {[number, number]} */
  let shift = [0, 0];
  sheet.space.prepend(creases());

  /** @returns {any} the creases of the sheet: a dark line where it folds down, a light one beside it */
  function creases() {
    const { width, height } = sheet.size;
    let path = "";
    for (let n = 1; n < deck.columns; n++) path += `M${n * panel.width} 0V${height}`;
    for (let n = 1; n < deck.rows; n++) path += `M0 ${n * panel.height}H${width}`;
    return draw(
      "g",
      { "aria-hidden": "true" },
      draw("path", { class: "nav-crease-light", d: path }),
      draw("path", { class: "nav-crease", d: path }),
    );
  }

  /** @type {[string, string, number, number][]} */
  const ways = [
    ["←", say("Refold: a panel further left"), -1, 0],
    ["→", say("Refold: a panel further right"), 1, 0],
    ["↑", say("Refold: a panel further up"), 0, -1],
    ["↓", say("Refold: a panel further down"), 0, 1],
  ];
  const folds = ways.map(([sign, words, x, y]) =>
    button(sign, () => refold(x, y), { "aria-label": words, title: words }),
  );

  /** @param {number} x @param {number} y */
  function refold(x, y) {
    const [wasColumn, wasRow] = [column, row];
    column = within(column + x, 0, most[0]);
    row = within(row + y, 0, most[1]);
    if (column === wasColumn && row === wasRow) return;
    showFold();
    said.textContent = say("Refolded: columns {left} to {right} of {columns}, rows {top} to {bottom} of {rows}.", {
      left: column + 1,
      right: Math.min(column + PANELS, deck.columns),
      columns: deck.columns,
      top: row + 1,
      bottom: Math.min(row + PANELS, deck.rows),
      rows: deck.rows,
    });
  }

  function showFold() {
    sheet.foldTo({
      left: column * panel.width,
      top: row * panel.height,
      right: Math.min(column + PANELS, deck.columns) * panel.width,
      bottom: Math.min(row + PANELS, deck.rows) * panel.height,
    });
    sheet.turnTo(turn, ...shift);
    for (const [n, [, , x, y]] of ways.entries()) {
      const end = x ? column + x < 0 || column + x > most[0] : row + y < 0 || row + y > most[1];
      set(folds[n], { "aria-disabled": end ? "true" : null });
    }
  }

  // The waves ---------------------------------------------------------------------------------------

  let steady = still;
  let waiting = 0;
  const hold = button("", () => {
    steady = !steady;
    showHold();
  });

  function showHold() {
    hold.textContent = steady ? say("Let it lie loose") : say("Hold it steady");
    set(hold, { "aria-pressed": steady ? "true" : "false" });
    window.clearTimeout(waiting);
    if (!steady) await_();
  }

  function await_() {
    waiting = window.setTimeout(wave, WAVES_MS[0] + next() * (WAVES_MS[1] - WAVES_MS[0]));
  }

  function wave() {
    // Nobody is nudged while the hand holds something, or looks elsewhere.
    if (!document.hidden && !sheet.node.matches(":active")) {
      const by = (next() < 0.5 ? -1 : 1) * (2 + 3 * next());
      turn = Math.abs(turn + by) > MOST_TURN ? turn - by : turn + by;
      shift = [0.02 * (next() - 0.5), 0.02 * (next() - 0.5)];
      sheet.turnTo(turn, ...shift);
      said.textContent = say("A wave: the case lies turned by {degrees}° to the {side} now.", {
        degrees: Math.round(Math.abs(turn)),
        side: turn < 0 ? say("left") : say("right"),
      });
    }
    await_();
  }

  // The time ----------------------------------------------------------------------------------------

  const begun = performance.now();
  const seconds = () => Math.floor((performance.now() - begun) / 1000);
  let timed = wantsTimer();
  let over = false;
  const clock = el("span", { class: "nav-count", role: "timer", "aria-live": "off" });
  const timer = button("", () => {
    timed = !timed;
    keepTimer(timed);
    showTime();
  });
  const ticking = window.setInterval(showTime, 1000);

  function showTime() {
    if (over) return;
    clock.hidden = !timed;
    clock.textContent = say("Time: {time}", { time: timeWords(seconds()) });
    timer.textContent = timed ? say("Switch the timer off") : say("Switch the timer on");
  }

  /** @param {boolean} now  whether the work is over */
  function done(now) {
    if (!now || over) return;
    over = true;
    timer.hidden = true;
    clock.textContent = say("Time taken: {time}", { time: timeWords(seconds()) });
  }

  const bar = el(
    "div",
    { class: "nav-deck-bar" },
    el("span", { class: "nav-deck-fold", role: "group", "aria-label": say("Refold the sheet") }, ...folds),
    ...(still ? [] : [hold]),
    timer,
    clock,
    said,
  );
  sheet.node.after(bar);
  showFold();
  showHold();
  showTime();
  return {
    ...table,
    node: table.node,
    done,
    close() {
      window.clearTimeout(waiting);
      window.clearInterval(ticking);
      table.close();
    },
  };
}

/**
 * A sheet on the table or on deck, as its picture says.
 * @param {Picture} picture @param {Parameters<typeof chartTable>[1]} told
 * @returns {ReturnType<typeof chartTable> & {done?: (over: boolean) => void}}
 */
const workedOn = (picture, told) =>
  picture.deck ? deckTable({ ...picture, deck: picture.deck }, told) : chartTable(picture, told);
