// @ts-check
// A stream from slack to slack: thirds in an hour, 50 and 90 per cent at an hour; springs to neaps.

const THIRDS = [1, 2, 3, 3, 2, 1].map((thirds) => thirds / 3);
const FIFTY_NINETY = [0, 0.5, 0.9, 1, 0.9, 0.5, 0];
const HOURS = [0, 1, 2, 3, 4, 5, 6].map((hour) => hour * HOUR);
const SLACK = 6 * HOUR;
const FEW = 1; // knots that a novice group can cope with

const [LEFT, RIGHT, FOOT, TALL] = [54, 610, 336, 232];
const MOST = 5;
const across = scale(LEFT, RIGHT, SLACK);
/** @param {number} rate */
const up = (rate) => FOOT - (rate / MOST) * TALL;
const [STRIP, STRIP_TALL] = [494, 84];

/** @param {{model: any, el: HTMLElement}} context */
function render({ model, el: root }) {
  /** @param {string} name */
  const get = (name) => model.get(name);
  const change = changer(model);
  const { days, ranges, means, rates, gate } = get("data");
  const last = days.length - 1;
  const dayAt = scale(LEFT + 14, RIGHT - 14, last);
  const toDay = (/** @type {number} */ value, /** @type {boolean} */ done) =>
    change("day", 0, last)(toNearest(value, 1), done);
  const toMoment = (/** @type {number} */ value, /** @type {boolean} */ done) =>
    change("minutes", 0, SLACK)(toNearest(value, 1), done);

  const hours = draw("g", { class: "nav-plain" });
  const strip = draw("g", { class: "nav-plain" });
  const moment = slider(say("Time since slack"), 0, SLACK, grip());
  const day = slider(say("The day"), 0, last, grip());
  const drawing = drawingOf(540, hours, strip, moment, day);

  const greatest = reading(say("the strongest today"));
  const during = reading("");
  const now = reading("");
  const sums = el("ul", { class: "nav-sums" });
  const days_ = quantityControl(
    say("Day of the fortnight"),
    { min: 1, max: last + 1, step: 1, unit: say("of {days}", { days: last + 1 }), say: (n) => days[n - 1] },
    (value, done) => toDay(value - 1, done),
  );
  const minutes = quantityControl(
    say("Minutes since slack"),
    { min: 0, max: SLACK, step: 1, unit: "min", say: duration },
    toMoment,
  );
  const { node, sentence } = demoFrame(
    say("From slack to slack"),
    say("Bars for the mean rate in each hour, dots for the rate at each hour, and the days below"),
    drawing,
    greatest.node,
    during.node,
    now.node,
    sums,
    minutes.node,
    days_.node,
  );

  function show() {
    const [n, at] = [get("day"), get("minutes")];
    const most = rateToday(rates, means, ranges[n]);
    const hour = Math.min(Math.floor(at / HOUR), 5);
    const rate = most * inStep(at, HOURS, FIFTY_NINETY);
    hours.replaceChildren(...picture(most, hour), momentLine(at, rate));
    strip.replaceChildren(...fortnight(days, ranges, dayAt, n));
    set(moment, {
      transform: `translate(${across(at)} ${FOOT})`,
      "aria-valuenow": at,
      "aria-valuetext": say("{time} after slack, {rate}", { time: duration(at), rate: knots(rate) }),
    });
    set(day, {
      transform: `translate(${dayAt(n)} ${STRIP})`,
      "aria-valuenow": n,
      "aria-valuetext": say("{day}, range {range}", { day: days[n], range: metres(ranges[n]) }),
    });
    greatest.value.textContent = knots(most);
    greatest.more.textContent = say("range {range}", { range: metres(ranges[n]) });
    during.node.firstChild.textContent = say("mean in hour {number}, by thirds", { number: hour + 1 });
    during.value.textContent = knots(most * THIRDS[hour]);
    now.node.firstChild.textContent = say("at {time} after slack", { time: duration(at) });
    now.value.textContent = knots(rate);
    now.more.textContent = say("{share} per cent", { share: toNearest((rate / most) * 100, 1) });
    showLines(sums, [
      say("Diamond {gate}: {springs} at springs, {neaps} at neaps", {
        gate,
        springs: knots(rates[0]),
        neaps: knots(rates[1]),
      }),
      say("{neaps} + {between} × ({range} − {low}) ÷ ({high} − {low}) = {rate}", {
        neaps: tenths(rates[1]),
        between: tenths(rates[0] - rates[1]),
        range: decimal(ranges[n]),
        low: decimal(means[1]),
        high: decimal(means[0]),
        rate: knots(most),
      }),
    ]);
    minutes.show(at);
    days_.show(n + 1);
    sentence.textContent = told(most);
  }

  const x = (/** @type {number} */ most) => (/** @type {number} */ place) =>
    ((place - LEFT) / (RIGHT - LEFT)) * most;
  slides(moment, drawing, { from: x(SLACK), now: () => get("minutes"), step: 10, fine: 1 }, toMoment);
  slides(day, drawing, { from: x(last), now: () => get("day"), step: 1, fine: 1 }, toDay);
  model.on("change:day change:minutes", show);
  root.append(node);
  show();
  return () => model.off("change:day change:minutes", show);
}

/** How long one may cross, by 50 and 90 per cent. @param {number} most */
function told(most) {
  if (most <= FEW) return say("All day the stream stays under {few}.", { few: knots(FEW) });
  const share = FEW / most;
  const after = share <= 0.5 ? (share / 0.5) * HOUR : HOUR + ((share - 0.5) / 0.4) * HOUR;
  return say(
    "It stays under {few} for {minutes} min after slack. Two hours after slack it has nine tenths of its strength already.",
    { few: knots(FEW), minutes: Math.floor(after) },
  );
}

/** Bars of the hours, the curve that the rules stand for, and dots at the hours.
 * @param {number} most @param {number} hour */
function picture(most, hour) {
  const sine = Array.from({ length: 61 }, (_, n) => {
    const part = n / 60;
    return /** @type {[number, number]} */ ([across(part * SLACK), up(most * Math.sin(Math.PI * part))]);
  });
  return [
    label(say("knots"), 8, 50, { "text-anchor": "start" }),
    ...[1, 2, 3, 4, 5].flatMap((rate) => [
      draw("path", { class: "nav-faint", d: `M${LEFT} ${up(rate)}H${RIGHT}` }),
      label(String(rate), LEFT - 12, up(rate) + 8, { "text-anchor": "end" }),
    ]),
    ...THIRDS.flatMap((share, n) => {
      const [x, width] = [across(n * HOUR), across(HOUR) - across(0)];
      return [
        draw("rect", {
          class: `nav-bar nav-bar-${n === hour ? "first" : "second"}`,
          x,
          width,
          y: up(most * share),
          height: FOOT - up(most * share),
        }),
        label(["⅓", "⅔", "1", "1", "⅔", "⅓"][n], x + width / 2, FOOT + 42, { class: "nav-third" }),
      ];
    }),
    draw("path", { class: "nav-now", d: pathThrough(sine) }),
    ...FIFTY_NINETY.flatMap((share, n) => [
      draw("circle", { class: "nav-dot", cx: across(n * HOUR), cy: up(most * share), r: 7 }),
      share && most > 1.2
        ? label(`${toNearest(share * 100, 1)} %`, across(n * HOUR), up(most * share) - 16, {
            class: "nav-strong nav-on-paper",
          })
        : draw("g", {}),
      label(`${n}`, across(n * HOUR), FOOT + 40),
    ]),
    label(say("hours after slack"), RIGHT, FOOT + 68, { "text-anchor": "end" }),
  ];
}

/** @param {number} at @param {number} rate */
const momentLine = (at, rate) =>
  draw(
    "g",
    {},
    draw("path", { class: "nav-now", d: `M${across(at)} ${FOOT}V${up(rate)}` }),
    draw("circle", { class: "nav-now-point", cx: across(at), cy: up(rate), r: 10 }),
  );

/** The ranges of the days as posts on a line. @param {string[]} days @param {number[]} ranges
 * @param {(n: number) => number} dayAt @param {number} today */
function fortnight(days, ranges, dayAt, today) {
  const tall = (/** @type {number} */ range) => (range / 4.6) * STRIP_TALL;
  return [
    label(say("range of each day"), LEFT - 40, STRIP - STRIP_TALL - 4, { "text-anchor": "start" }),
    ...ranges.map((range, n) =>
      draw("rect", {
        class: `nav-bar nav-bar-${n === today ? "first" : "second"}`,
        x: dayAt(n) - 12,
        width: 24,
        y: STRIP - tall(range),
        height: tall(range),
      }),
    ),
    label(`${days[today]}`, within(dayAt(today), 90, 550), STRIP + 38, { class: "nav-strong" }),
  ];
}

export default { render };
