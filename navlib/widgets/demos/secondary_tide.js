// @ts-check
// A secondary port: time and height differences in step between the columns of the table.

/** @param {{model: any, el: HTMLElement}} context */
function render({ model, el: root }) {
  /** @param {string} name */
  const get = (name) => model.get(name);
  const change = changer(model);
  const ports = get("data").ports;
  /** @returns {Half} */
  const half = () => ports[get("port")][get("water")];
  const bounds = () => (get("water") === "high" ? [3.1, 5.4] : [0, 2.6]);
  const clocked = change("clock", 0, DAY - 1);
  const heighten = (/** @type {number} */ value, /** @type {boolean} */ done) => {
    const [least, most] = bounds();
    change("height", least, most)(toNearest(value * 10, 1) / 10, done);
  };

  const graphs = draw("g", { class: "nav-plain" });
  const byTime = slider(say("Time at the standard port"), 0, DAY - 1, grip());
  const byHeight = slider(say("Height at the standard port"), 0, 5.4, grip());
  const drawing = drawingOf(520, graphs, byTime, byHeight);

  const which = oneOf(
    say("Which port?"),
    ports.map((/** @type {any} */ port, /** @type {number} */ n) => [n, port.name]),
    change("port"),
  );
  const water = oneOf(
    say("Which water?"),
    [
      ["high", say("high water")],
      ["low", say("low water")],
    ],
    (name) => {
      model.set("height", name === "high" ? 4.5 : 1);
      change("water")(name);
    },
  );
  const shift = reading(say("time difference"));
  const there = reading(say("time there"));
  const height = reading(say("height there"));
  const sums = el("ul", { class: "nav-sums" });
  const time = quantityControl(
    say("Time at Kessoray Harbour"),
    { min: 0, max: DAY - 1, step: 1, unit: "UT", say: clock, write: clock, read: clockRead },
    clocked,
  );
  const size = quantityControl(
    say("Height at Kessoray Harbour"),
    { min: 0, max: 5.4, step: 0.1, unit: "m", say: metres },
    heighten,
  );
  const { node, sentence } = demoFrame(
    say("In step between two columns"),
    say("Two lines: the time difference through the day, and the height difference by height"),
    drawing,
    which.node,
    water.node,
    shift.node,
    there.node,
    height.node,
    sums,
    time.node,
    size.node,
  );

  function show() {
    const [at, now] = [get("clock"), get("height")];
    const [by, more] = [minutesAt(half(), at), metresAt(half(), now)];
    const late = minutesAt(half(), at + HOUR);
    const [least, most] = bounds();
    const from = scale(LEFT, RIGHT, most - least);
    const sideways = (/** @type {number} */ h) => from(h - least);
    const [minuteAt, metreAt] = [upward(half().minutes, TOP, TOP_FOOT), upward(half().metres, LOW, LOW_FOOT)];
    graphs.replaceChildren(
      ...timeGraph(half(), minuteAt),
      ...ghost(across(at + HOUR), minuteAt(late)),
      ...reach(across(at), minuteAt(by), TOP_FOOT),
      ...heightGraph(half(), sideways, metreAt, get("water") === "high"),
      ...reach(sideways(now), metreAt(more), LOW_FOOT),
    );
    set(byTime, {
      transform: `translate(${across(at)} ${TOP_FOOT})`,
      "aria-valuenow": at,
      "aria-valuetext": say("{time} UT, difference {minutes} min", {
        time: clock(at),
        minutes: withSign(by, 0),
      }),
    });
    set(byHeight, {
      transform: `translate(${sideways(now)} ${LOW_FOOT})`,
      "aria-valuemin": least,
      "aria-valuemax": most,
      "aria-valuenow": decimal(now),
      "aria-valuetext": say("{height}, difference {metres} m", {
        height: metres(now),
        metres: withSign(more, 2),
      }),
    });
    which.show(get("port"));
    water.show(get("water"));
    const when = at + toNearest(by, 1);
    shift.value.textContent = say("{minutes} min", { minutes: withSign(by, 0) });
    there.value.textContent = say("{time} UT", { time: clock(when) });
    there.more.textContent = say("in summer {time} BST", { time: clock(when + HOUR) });
    height.value.textContent = metres(now + more);
    showLines(sums, lines(half(), at, by, now, more));
    time.show(at);
    size.show(now);
    sentence.textContent =
      toNearest(late, 1) === toNearest(by, 1)
        ? say("On this stretch the hour of the watch would do no harm. Do not count on it.")
        : say(
            "Looked up at {wrong} BST, as the watch shows, the difference would be {late} min. The columns are in the table’s time.",
            { wrong: clock(at + HOUR), late: withSign(late, 0) },
          );
  }

  slides(
    byTime,
    drawing,
    { from: (x) => ((x - LEFT) / (RIGHT - LEFT)) * DAY, now: () => get("clock"), step: 10, fine: 1 },
    clocked,
  );
  const wide = () => bounds()[1] - bounds()[0];
  slides(
    byHeight,
    drawing,
    {
      from: (x) => ((x - LEFT) / (RIGHT - LEFT)) * wide(),
      now: () => get("height"),
      step: 0.2,
      fine: 0.1,
    },
    heighten,
  );
  const watched = "change:port change:water change:clock change:height";
  model.on(watched, show);
  root.append(node);
  show();
  return () => model.off(watched, show);
}

/** @param {Half} half @param {number} at @param {number} by @param {number} now @param {number} more */
function lines(half, at, by, now, more) {
  const [hours, differences] = columns(half);
  const next = hours.findIndex((hour) => hour > at);
  const [before, after] = [hours[next - 1], hours[next]];
  return [
    say("From {one} ({first}) to {two} ({second}): {gone} of {whole}", {
      one: clock(before),
      first: withSign(differences[next - 1], 0),
      two: clock(after),
      second: withSign(differences[next], 0),
      gone: duration(at - before),
      whole: duration(after - before),
    }),
    say("Time: {time} UT {sign} {minutes} min = {there} UT", {
      time: clock(at),
      sign: by < 0 ? "−" : "+",
      minutes: decimal(Math.abs(by), 0),
      there: clock(at + toNearest(by, 1)),
    }),
    say("Height: {height} {sign} {more} = {there}", {
      height: decimal(now),
      sign: more < 0 ? "−" : "+",
      more: decimal(Math.abs(more), 2),
      there: metres(now + more),
    }),
  ];
}

export default { render };
