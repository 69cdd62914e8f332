// @ts-check
// A clock sum in hops: to the full hour, the hours, the minutes left; over midnight; UT and BST.

const HOUR_WIDE = 86; // units of the drawing
const NAMES_WIDE = 76;
const FARTHEST = 5 * HOUR;
const [EARLY, LATE] = [150, 150 + 5 * HOUR_WIDE]; // where the given time lies: going on, going back

/**
 * The hops of a clock sum: [from, to] in minutes, from `start` on by `minutes` or back.
 * @param {number} start @param {number} minutes @param {boolean} back
 * @returns {[number, number][]}
 */
function hops(start, minutes, back) {
  const end = start + (back ? -minutes : minutes);
  const full = (/** @type {number} */ at, /** @type {boolean} */ up) =>
    (up ? Math.ceil(at / HOUR) : Math.floor(at / HOUR)) * HOUR;
  const [first, last] = [full(start, !back), full(end, back)];
  const stops = (back ? first <= end : first >= end) ? [start, end] : [start, first, last, end];
  /** @type {[number, number][]} */
  const pairs = stops.slice(1).map((stop, n) => [stops[n], stop]);
  return pairs.filter(([from, to]) => from !== to);
}

/** @param {number} minutes @returns {string} which day that is, of the one with the given time */
const dayWords = (minutes) =>
  minutes >= DAY ? say(", the next day") : minutes < 0 ? say(", the day before") : "";

/** @param {{model: any, el: HTMLElement}} context */
function render({ model, el: root }) {
  /** @param {string} name */
  const get = (name) => model.get(name);
  /** @param {string} name @returns {(value: any, done: boolean) => void} */
  const change = (name) => (value, done) => {
    model.set(name, value);
    if (done) model.save_changes();
  };
  /** @param {number} value @param {boolean} done */
  const take = (value, done) => change("minutes")(within(toNearest(value, 1), 1, FARTHEST), done);

  const tape = draw("g", {});
  const jumps = draw("g", {});
  const end = slider(say("The other end"), 1, FARTHEST, grip());
  const drawing = drawingOf(
    400,
    tape,
    jumps,
    end,
  );

  const ways = oneOf(
    say("Which end is known?"),
    [
      [false, say("When am I there?")],
      [true, say("When must I leave?")],
    ],
    (back) => change("back")(back, true),
  );
  const from = reading("");
  const to = reading("");
  const sums = el("ul", { class: "nav-sums" });
  const given = quantityControl(
    say("The time I know"),
    { min: 0, max: DAY - 1, step: 1, unit: "UT", say: clock, write: clock, read: clockRead },
    change("clock"),
  );
  const taken = quantityControl(
    say("Time it takes"),
    { min: 1, max: FARTHEST, step: 1, unit: "min", say: duration },
    take,
  );
  const { node, sentence } = demoFrame(
    say("A clock sum in hops"),
    say("A strip of hours that slides, hops above it"),
    drawing,
    ways.node,
    from.node,
    to.node,
    sums,
    given.node,
    taken.node,
  );

  function show() {
    const [start, minutes, back] = [get("clock"), get("minutes"), get("back")];
    const other = start + (back ? -minutes : minutes);
    /** @param {number} when */
    const at = (when) => (back ? LATE : EARLY) + ((when - start) / HOUR) * HOUR_WIDE;
    const all = hops(start, minutes, back);
    jumps.replaceChildren(...all.flatMap((hop) => hopDrawn(hop, at)));
    tape.replaceChildren(...strip(at, [start, other]));
    set(end, {
      transform: `translate(${at(other)} 364)`,
      "aria-valuenow": minutes,
      "aria-valuetext": `${duration(minutes)}: ${clock(other)} UT`,
    });
    ways.show(back);
    for (const [one, when, name] of /** @type {[any, number, string][]} */ ([
      [from, start, back ? say("be there by") : say("leave")],
      [to, other, (back ? say("leave") : say("there")) + dayWords(other)],
    ])) {
      one.node.firstChild.textContent = name;
      one.value.textContent = `${clock(when)} UT`;
      one.more.textContent = say("on the watch {time} BST", { time: clock(when + HOUR) });
    }
    showLines(
      sums,
      all.map(([a, b]) => `${clock(a)} ${back ? "−" : "+"} ${hopWords(b - a)} = ${clock(b)}`),
    );
    given.show(start);
    taken.show(minutes);
    sentence.textContent = plainSum(start, minutes, back);
  }

  slides(
    end,
    drawing,
    {
      from: (x) => (x / HOUR_WIDE) * HOUR * (get("back") ? -1 : 1),
      now: () => get("minutes"),
      step: 5,
      fine: 1,
    },
    take,
  );
  model.on("change:clock change:minutes change:back", show);
  root.append(node);
  show();
  return () => model.off("change:clock change:minutes change:back", show);
}

/** @param {number} minutes @returns {string} the size of a hop: 35 min, 2 h */
const hopWords = (minutes) =>
  minutes % HOUR ? `${Math.abs(minutes)} min` : `${Math.abs(minutes) / HOUR} h`;

/** @param {[number, number]} hop @param {(when: number) => number} at */
function hopDrawn([a, b], at) {
  const [left, right] = [Math.min(at(a), at(b)), Math.max(at(a), at(b))];
  const whole = (b - a) % HOUR === 0;
  const tall = whole ? 74 : 44;
  const words = hopWords(b - a);
  // Minutes are written away from the full hour that they lead to or come from.
  const toHour = Math.max(a, b) % HOUR === 0;
  const narrow = right - left < 80;
  const x = whole || !narrow ? (left + right) / 2 : toHour ? right - 4 : left + 4;
  const anchor = whole || !narrow ? "middle" : toHour ? "end" : "start";
  return [
    draw("path", {
      class: "nav-hop",
      d: `M${left} 172C${left} ${172 - tall * 1.33} ${right} ${172 - tall * 1.33} ${right} 172`,
    }),
    label(words, x, whole ? 80 : narrow ? 122 - (right - left) / 12 : 122, {
      "text-anchor": anchor,
      class: "nav-strong nav-on-paper",
    }),
  ];
}

/**
 * The hours in UT and in BST, and a line through both at each of `moments`.
 * @param {(when: number) => number} at @param {number[]} moments @returns {any[]}
 */
function strip(at, moments) {
  const parts = [
    draw("rect", { class: "nav-bar nav-bar-first", x: -10, y: 172, width: 660, height: 72 }),
    draw("rect", { class: "nav-bar nav-bar-second", x: -10, y: 244, width: 660, height: 72 }),
    ...moments.map((when) => draw("path", { class: "nav-now", d: `M${at(when)} 172V348` })),
  ];
  for (let hour = -6; hour <= 30; hour++) {
    const x = at(hour * HOUR);
    if (x < -40 || x > 680) continue;
    parts.push(draw("path", { class: "nav-axis", d: `M${x} 172v16M${x} 236v16M${x} 308v8` }));
    for (const [clockHour, y] of [
      [hour, 220],
      [hour + 1, 290],
    ]) {
      const midnight = clockHour % 24 === 0;
      if (x > NAMES_WIDE + 28 && x < 616) {
        const on = y < 250 ? "nav-on-tint" : "nav-on-paper";
        const weight = midnight ? "nav-strong" : "";
        parts.push(label(clock(clockHour * HOUR), x, y, { class: `${on} ${weight}` }));
      }
      if (midnight) {
        parts.push(draw("path", { class: "nav-midnight", d: `M${x} ${y - 48}v18M${x} ${y + 6}v18` }));
        if (y < 250) {
          parts.push(label(say("midnight"), within(x, 130, 580), 32, { class: "nav-quiet" }));
          parts.push(draw("path", { class: "nav-not-here", d: `M${x} 42V170` }));
        }
      }
    }
  }
  return [
    ...parts,
    draw("rect", { class: "nav-bar nav-bar-second", x: -10, y: 172, width: NAMES_WIDE, height: 144 }),
    label("UT", NAMES_WIDE / 2 - 5, 217, { class: "nav-strong" }),
    label("BST", NAMES_WIDE / 2 - 5, 289, { class: "nav-strong" }),
  ];
}

/** What comes of taking clock times for plain numbers.
 * @param {number} start @param {number} minutes @param {boolean} back */
function plainSum(start, minutes, back) {
  const took = Math.floor(minutes / HOUR) * 100 + (minutes % HOUR);
  const shown = Number(clock(start));
  const raw = back ? shown - took : shown + took;
  const right = clock(start + (back ? -minutes : minutes));
  const written = raw < 0 ? `−${-raw}` : String(raw).padStart(4, "0");
  const sum = `${clock(start)} ${back ? "−" : "+"} ${took} = ${written}`;
  if (written === right) {
    return say("No hour is filled or opened here, so even a plain sum comes out right.");
  }
  const seen = raw >= 0 && raw < 2400 && raw % 100 < 60;
  return seen
    ? say(
        "As plain numbers {sum}: a time, but the wrong one. An hour has 60 minutes, not 100.",
        { sum },
      )
    : say(
        "As plain numbers {sum}: no clock shows that. An hour has 60 minutes, a day 24 hours.",
        { sum },
      );
}

export default { render };
