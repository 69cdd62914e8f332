// @ts-check
// The spread of answers on one picture: dots along a line, bars for what was chosen from a list.

const ACROSS = 1000;
const EDGE = 46;
const DOT = 11;
const ROOM = { one: 250, more: 120 };
const APART = 92;

/** @param {number} value @param {string} unit @returns {string} a signed distance, as it is written */
function signedWords(value, unit) {
  const figure = Number(Math.abs(value).toPrecision(3));
  const sign = value > 0 ? "+" : value < 0 ? "−" : "";
  const degrees = /^[°′″]/.exec(unit); // which north it is counted from does not matter for a difference
  return `${sign}${figure}${degrees?.[0] ?? ` ${unit}`}`.trim();
}

/** @param {number} most @returns {number[]} round numbers up to it, growing */
function roundNumbers(most) {
  const found = [];
  for (let power = -4; power < 7; power++) {
    for (const first of [1, 2, 5]) {
      const number = first * 10 ** power;
      if (number <= most) found.push(Number(number.toPrecision(2)));
    }
  }
  return found;
}

/**
 * The line on which answers lie. Near the key it is even; far off it is drawn together, so that one
 * answer that is a long way out does not push all others into one point.
 * @param {number[]} offs @param {number} width  of the band for part marks; 0 makes it even all along
 */
function line(offs, width) {
  const reach = width * 1.4;
  const [low, high] = [Math.min(-reach, ...offs), Math.max(reach, ...offs)];
  const unit = width || Math.max(high - low, 1e-9);
  const along_ = width ? (/** @type {number} */ value) => Math.asinh(value / unit) : (/** @type {number} */ v) => v;
  const [from, to] = [along_(low), along_(high)];
  const span = to - from || 1;
  /** @param {number} value */
  const at = (value) =>
    to === from ? ACROSS / 2 : EDGE + ((along_(value) - from) / span) * (ACROSS - 2 * EDGE);
  return { at, low, high };
}

/** @param {string | null} outcome @param {number} x @param {number} y */
function dot(outcome, x, y) {
  const place = { transform: `translate(${x} ${y})`, class: `nav-answer-dot nav-answer-dot-${outcome ?? "hidden"}` };
  if (outcome === "wrong") return draw("path", { d: `M0 ${-DOT}L${DOT} ${DOT * 0.8}H${-DOT}Z`, ...place });
  if (outcome === "near") return draw("path", { d: `M0 ${-DOT}L${DOT} 0L0 ${DOT}L${-DOT} 0Z`, ...place });
  const ring = draw("circle", { r: DOT * 0.92, ...place });
  if (outcome !== "carried") return ring;
  return draw("g", {}, ring, draw("circle", { r: DOT * 0.35, class: "nav-answer-heart", transform: place.transform }));
}

/** @param {Given[]} answers @param {(value: number) => number} at @param {number} foot @param {number} room */
function dots(answers, at, foot, room) {
  /** @type {Map<number, Given[]>} */
  const stacks = new Map();
  for (const one of answers) {
    const column = Math.round(at(one.off ?? 0) / (2 * DOT + 2));
    stacks.set(column, [...(stacks.get(column) ?? []), one]);
  }
  const tallest = Math.max(1, ...[...stacks.values()].map((stack) => stack.length));
  const step = Math.min(2 * DOT + 2, (room - 2 * DOT) / tallest);
  return [...stacks].flatMap(([, stack]) => {
    const x = stack.reduce((sum, one) => sum + at(one.off ?? 0), 0) / stack.length;
    return stack.map((one, n) => dot(one.outcome, x, foot - DOT - 3 - n * step));
  });
}

/**
 * @param {Spread} part @param {number} top @param {number} room
 * @param {AskedNow} question  before its reveal nothing shows where the right answer lies
 */
function rowOfDots(part, top, room, { state, own }) {
  const revealed = state === "revealed";
  const lying = part.answers.filter((one) => one.off !== null);
  const offs = lying.map((one) => one.off ?? 0);
  const { at, low, high } = line(offs, revealed ? part.band.part : 0);
  const foot = top + room;
  const group = draw("g", {});
  if (revealed) {
    for (const [width, name] of /** @type {[number, string][]} */ ([
      [part.band.part, "nav-band-part"],
      [part.band.full, "nav-band-full"],
    ])) {
      const [x, to] = [at(-width), at(width)];
      group.append(draw("rect", { x, y: top, width: to - x, height: room, class: name }));
    }
    group.append(draw("line", { x1: at(0), x2: at(0), y1: top - 6, y2: foot + 8, class: "nav-true" }));
  }
  group.append(draw("line", { x1: EDGE / 2, x2: ACROSS - EDGE / 2, y1: foot, y2: foot, class: "nav-ruled" }));
  group.append(...dots(lying, at, foot, room));
  group.append(...(revealed ? ticks(part, at, low, high, foot) : own ? [] : ends(lying, at, foot)));
  return group;
}

/** @param {number} x @param {number} foot @param {string} words @param {string} [name] */
const under = (x, foot, words, name = "") =>
  draw("text", { x: within_(x), y: foot + 38, "text-anchor": x < 90 ? "start" : x > ACROSS - 90 ? "end" : "middle", class: name }, words);

/** @param {number} x */
const within_ = (x) => Math.min(Math.max(x, 4), ACROSS - 4);

/** @param {Spread} part @param {(value: number) => number} at @param {number} low @param {number} high @param {number} foot */
function ticks({ band, key, unit }, at, low, high, foot) {
  const first = [band.part, ...roundNumbers(Math.max(-low, high)).filter((one) => one > band.part * 1.6)];
  const taken = [at(0)];
  const found = [under(at(0), foot, key ?? say("right"), "nav-true-words")];
  for (const value of first.flatMap((one) => [one, -one])) {
    const x = at(value);
    if (value < low || value > high || taken.some((other) => Math.abs(other - x) < APART)) continue;
    taken.push(x);
    found.push(draw("line", { x1: x, x2: x, y1: foot, y2: foot + 8, class: "nav-ruled" }));
    found.push(under(x, foot, signedWords(value, unit)));
  }
  return found;
}

/** @param {Given[]} lying @param {(value: number) => number} at @param {number} foot */
function ends(lying, at, foot) {
  if (!lying.length) return [];
  const sorted = [...lying].sort((a, b) => (a.off ?? 0) - (b.off ?? 0));
  const [first, last] = [sorted[0], sorted[sorted.length - 1]];
  const shown = first.off === last.off ? [first] : [first, last];
  return shown.map((one) => under(at(one.off ?? 0), foot, one.text ?? ""));
}

/** @param {AskedNow} question @returns {HTMLElement[]} */
function spreadView(question) {
  const parts = question.spread ?? [];
  const revealed = question.state === "revealed";
  const drawn = parts.filter((part) => part.answers.some((one) => one.off !== null));
  const several = parts.length > 1;
  const [room, head] = several ? [ROOM.more, 44] : [ROOM.one, 10];
  const pitch = head + room + 52;
  const rows = drawn.flatMap((part, n) => {
    const top = n * pitch + head;
    const words = several ? [draw("text", { x: 4, y: top - 16, class: "nav-row-words" }, part.prompt)] : [];
    return [...words, rowOfDots(part, top, room, question)];
  });
  const picture = draw(
    "svg",
    {
      class: "nav-spread",
      viewBox: `0 0 ${ACROSS} ${drawn.length * pitch}`,
      role: "img",
      "aria-label": spreadWords(drawn, revealed),
    },
    ...rows,
  );
  const unread = Math.max(0, ...parts.map((part) => part.answers.filter((one) => !one.text).length));
  return [
    ...(drawn.length ? [picture] : []),
    ...(question.own ? [] : parts.filter((part) => !drawn.includes(part)).map(listOfTexts)),
    ...(revealed || !drawn.length ? [] : [el("p", { class: "nav-own" }, say("A dot for each answer. Where the right one lies is not shown yet."))]),
    ...(unread ? [el("p", { class: "nav-unread" }, say("Could not be read: {unread}.", { unread }))] : []),
    ...(revealed && drawn.length ? [legend(drawn)] : []),
  ];
}

/** Answers that lie on no line: each as it reads, the same ones together. @param {Spread} part */
function listOfTexts({ answers }) {
  /** @type {Map<string, number>} */
  const counts = new Map();
  for (const { text } of answers) if (text) counts.set(text, (counts.get(text) ?? 0) + 1);
  return el(
    "ul",
    { class: "nav-texts" },
    ...[...counts].map(([text, count]) => el("li", {}, text, count > 1 ? el("b", {}, ` ${say("{count} ×", { count })}`) : "")),
  );
}

/** @param {Spread[]} parts @param {boolean} revealed @returns {string} the same in words */
function spreadWords(parts, revealed) {
  if (!revealed) return say("A dot for each answer along a line. The right one is not shown yet.");
  const within = parts.map(({ prompt, answers, band }) => {
    const near = answers.filter((one) => one.off !== null && Math.abs(one.off) <= band.part).length;
    return say("{prompt}: {near} of {all} in the band.", { prompt, near, all: answers.length });
  });
  return [say("A dot for each answer, by how far it lies from the right one."), ...within].join(" ");
}

/** @param {Spread[]} parts @returns {HTMLElement} */
function legend(parts) {
  const made = new Set(parts.flatMap((part) => part.answers.map((one) => one.outcome ?? "")));
  const shapes = Object.entries(OUTCOMES)
    .filter(([outcome]) => made.has(outcome) && outcome !== "unread")
    .map(([outcome, [, words]]) => {
      const sample = draw("svg", { viewBox: "-13 -13 26 26", "aria-hidden": "true" }, dot(outcome, 0, 0));
      return el("li", {}, sample, words);
    });
  const bands = [
    el("li", {}, el("span", { class: "nav-sample-full", "aria-hidden": "true" }), say("full marks")),
    el("li", {}, el("span", { class: "nav-sample-part", "aria-hidden": "true" }), say("part marks")),
  ];
  return el("ul", { class: "nav-legend" }, ...shapes, ...bands);
}

/** @param {Choices[]} parts @returns {HTMLElement[]} */
function choicesView(parts) {
  return parts.flatMap(({ prompt, options }) => {
    const most = Math.max(1, ...options.map((one) => one.count));
    const rows = options.map(({ words, count, right }) =>
      el(
        "li",
        { "data-right": right === null ? null : String(right) },
        el("span", { class: "nav-option-words" }, right ? el("b", {}, `✓ ${words}`) : words),
        el(
          "span",
          { class: "nav-option-bar", "aria-hidden": "true" },
          el("span", { style: `width: ${(100 * count) / most}%` }),
        ),
        el("span", { class: "nav-option-count" }, String(count)),
      ),
    );
    return [
      ...(parts.length > 1 ? [el("p", { class: "nav-row-words" }, prompt)] : []),
      el("ul", { class: "nav-options" }, ...rows),
    ];
  });
}
