// @ts-check
// A day's tide by the twelfths: a height at a time, or when the water lies below a level.

/** @param {{model: any, el: HTMLElement}} context */
function render({ model, el: root }) {
  /** @param {string} name */
  const get = (name) => model.get(name);
  const change = changer(model);
  /** @returns {OneDay} */
  const day = () => get("data")[get("day")];
  const most = () => (get("day") === "mixed" ? 2.5 : 5.5);
  /** @param {number} height */
  const up = (height) => FOOT - (height / most()) * HIGH;
  const clocked = change("clock", 0, DAY - 1);
  const levelled = (/** @type {number} */ value, /** @type {boolean} */ done) =>
    change("level", 0.1, Math.floor(most()))(toNearest(value * 10, 1) / 10, done);

  const back = draw("g", {});
  const front = draw("g", { class: "nav-plain" });
  const moment = slider(say("The time"), 0, DAY - 1, grip());
  const line = riser(say("The drying height"), 0, 5);
  const drawing = drawingOf(430, back, front, moment, line);

  const finds = oneOf(
    say("What do you want to find?"),
    [
      ["height", say("The height at a time")],
      ["times", say("When it is dry")],
    ],
    change("find"),
  );
  const days = oneOf(
    say("Which tide?"),
    [
      ["springs", say("springs")],
      ["neaps", say("neaps")],
      ["mixed", say("mixed tide")],
    ],
    (name) => {
      // Where the mixed tide shows what it is: low heights, a time well inside the long fall.
      if (name === "mixed") {
        model.set("level", Math.min(get("level"), 1));
        model.set("clock", 5 * HOUR + 30);
      }
      change("day")(name);
    },
  );
  const readings = [reading(""), reading(""), reading("")];
  const sums = el("ul", { class: "nav-sums" });
  const time = quantityControl(
    say("Time"),
    { min: 0, max: DAY - 1, step: 1, unit: "UT", say: clock, write: clock, read: clockRead },
    clocked,
  );
  const level = quantityControl(
    say("Drying height"),
    { min: 0.1, max: 5, step: 0.1, unit: "m", say: metres },
    levelled,
  );
  const { node, sentence } = demoFrame(
    say("The tide through a day"),
    say("The height of tide over a day, with the tide at hand cut into tidal hours"),
    drawing,
    days.node,
    finds.node,
    ...readings.map((one) => one.node),
    sums,
    time.node,
    level.node,
  );

  function show() {
    const [{ turns, curve }, byTime] = [day(), get("find") === "height"];
    back.replaceChildren(
      heightAxis(up, Math.floor(most()), LEFT, RIGHT),
      dayAxis(across, FOOT),
      label(say("metres above chart datum"), LEFT - 40, 26, { "text-anchor": "start" }),
    );
    const water = draw("path", {
      class: "nav-water-line",
      d: pathThrough(curve.map(([minutes, height]) => [across(minutes), up(height)])),
    });
    finds.show(get("find"));
    days.show(get("day"));
    time.node.hidden = !byTime;
    level.node.hidden = byTime;
    moment.style.visibility = byTime ? "" : "hidden";
    line.style.visibility = byTime ? "hidden" : "";
    (byTime ? showHeight : showTimes)(water, turns);
    time.show(get("clock"));
    level.show(get("level"));
  }

  /** @param {any} water @param {Turn[]} turns */
  function showHeight(water, turns) {
    const minutes = get("clock");
    const [from, to] = tideAt(day(), minutes);
    const height = byTwelfths(from, to, minutes);
    const [start, end] = [from[0], to[0]];
    const truth = inStep(minutes, day().curve.map(([at]) => at), day().curve.map(([, h]) => h));
    const straight = from[1] + ((to[1] - from[1]) * (minutes - start)) / (end - start);
    front.replaceChildren(...hoursOfTide(from, to, up), water, ...steps(from, to, up), ...marks(turns, up));
    front.append(
      draw("path", { class: "nav-now", d: `M${across(minutes)} ${FOOT}V${up(height)}` }),
      draw("circle", { class: "nav-now-point", cx: across(minutes), cy: up(height), r: 9 }),
    );
    set(moment, {
      transform: `translate(${across(minutes)} ${FOOT})`,
      "aria-valuenow": minutes,
      "aria-valuetext": say("{time} UT, {height} by the twelfths", {
        time: clock(minutes),
        height: metres(height),
      }),
    });
    read(readings[0], say("by the twelfths"), metres(height));
    read(readings[1], say("on a straight line"), metres(straight));
    read(readings[2], say("the water itself"), metres(truth));
    const hours = (6 * (minutes - start)) / (end - start);
    const twelfths = 12 * inStep(hours / 6, SIXTHS, SHARES);
    showLines(sums, [
      say("From {first} to {then}", { first: turnWords(from), then: turnWords(to) }),
      say("It lasts {long}: a tidal hour is {minutes} min", {
        long: duration(end - start),
        minutes: toNearest((end - start) / 6, 1),
      }),
      say("Gone {gone}: {hours} tidal hours, {twelfths} twelfths", {
        gone: duration(minutes - start),
        hours: decimal(hours),
        twelfths: decimal(twelfths),
      }),
      say("{start} {sign} {twelfths} ÷ 12 × {range} = {height}", {
        start: metres(from[1]),
        sign: to[2] ? "+" : "−",
        twelfths: decimal(twelfths),
        range: metres(Math.abs(to[1] - from[1])),
        height: metres(height),
      }),
    ]);
    sentence.textContent = told(from, to, minutes, height, straight, get("day") === "mixed");
  }

  /** @param {any} water @param {Turn[]} turns */
  function showTimes(water, turns) {
    const [value, spans, { ahead }] = [get("level"), below(day(), get("level")), day()];
    const y = up(value);
    const parts = [];
    for (const [from, to] of spans) {
      const [a, b] = [across(Math.max(from, 0)), across(Math.min(to, DAY))];
      if (b <= a) continue;
      parts.push(
        draw("rect", { class: "nav-dry", x: a, y, width: b - a, height: FOOT - y }),
        label(b - a > 60 ? say("dry") : "", (a + b) / 2, y + 30, { class: "nav-strong" }),
      );
    }
    front.replaceChildren(
      ...parts,
      water,
      draw("path", { class: "nav-now", d: `M${LEFT} ${y}H${RIGHT}` }),
      ...marks(turns, up),
    );
    set(line, {
      transform: `translate(${RIGHT - 6} ${y})`,
      "aria-valuenow": value,
      "aria-valuetext": say("dries {height}", { height: metres(value) }),
    });
    const shown = spans.filter(([from, to]) => to > 0 && from < DAY);
    for (const [n, one] of readings.entries()) {
      one.node.hidden = n >= Math.max(shown.length, 1);
      if (!shown[n]) continue;
      read(one, say("dry"), spanWords(shown[n], 0));
      one.more.textContent = ahead ? spanWords(shown[n], ahead) : "";
    }
    if (!shown.length) read(readings[0], "", say("never dry"));
    showLines(sums, turns.slice(0, -1).flatMap((from, n) => passing(from, turns[n + 1], value)));
    sentence.textContent = toldDry(shown, turns, value);
  }

  slides(
    moment,
    drawing,
    { from: (x) => ((x - LEFT) / (RIGHT - LEFT)) * DAY, now: () => get("clock"), step: 10, fine: 1 },
    clocked,
  );
  rises(
    line,
    drawing,
    { from: (y) => ((FOOT - y) / HIGH) * most(), now: () => get("level"), step: 0.5, fine: 0.1 },
    levelled,
  );
  const watched = "change:find change:day change:clock change:level";
  model.on(watched, show);
  root.append(node);
  show();
  return () => model.off(watched, show);
}

/** @param {ReturnType<typeof reading>} one @param {string} name @param {string} value */
function read(one, name, value) {
  one.node.hidden = false;
  one.node.firstChild.textContent = name;
  one.value.textContent = value;
  one.more.textContent = "";
}

export default { render };
