// @ts-check
// Out at one speed and home at another: the mean speed is not the mean of the speeds.

const [SLOWEST, QUICKEST] = [2, 6];

/** @param {number} distance one way @param {number} out @param {number} home */
function thereAndHome(distance, out, home) {
  const [first, second] = [(distance / out) * HOUR, (distance / home) * HOUR];
  const guess = (out + home) / 2;
  return {
    first,
    second,
    total: first + second,
    mean: (2 * distance * HOUR) / (first + second),
    guess,
    guessed: (2 * distance * HOUR) / guess,
  };
}

/** @param {{model: any, el: HTMLElement}} context */
function render({ model, el: root }) {
  /** @param {string} name */
  const get = (name) => model.get(name);
  /** @param {string} name @returns {(value: number, done: boolean) => void} */
  const change = (name) => (value, done) => {
    model.set(name, within(value, SLOWEST, QUICKEST));
    if (done) model.save_changes();
  };
  const distance = get("distance"); // stays as it was made
  const most = (2 * distance * HOUR) / SLOWEST;
  const at = scale(40, 600, most);
  const half = scale(40, 600, 2);

  const bars = draw("g", {});
  const grips = [say("Time out"), say("Time home")].map((name) => slider(name, 0, most / 2, grip()));
  const drawing = drawingOf(
    480,
    label(say("The way: two halves"), 40, 44, { "text-anchor": "start", class: "nav-strong" }),
    bar("first", half(0), half(1), 60, say("out {miles}", { miles: miles(distance) })),
    bar("second", half(1), half(2), 60, say("home {miles}", { miles: miles(distance) })),
    label(say("The time it takes"), 40, 176, { "text-anchor": "start", class: "nav-strong" }),
    bars,
    timeAxis(at, most, 428),
    ...grips,
  );

  const mean = reading(say("mean speed"));
  const guess = reading(say("mean of the speeds"));
  const sums = el("ul", { class: "nav-sums" });
  const range = { min: SLOWEST, max: QUICKEST, step: 0.5, unit: "kn", say: knots };
  const out = quantityControl(say("Speed out"), range, change("out"));
  const home = quantityControl(say("Speed home"), range, change("home"));
  const { node, sentence } = demoFrame(
    say("Out and home"),
    say("The same way out and home, and the time for each as bars"),
    drawing,
    mean.node,
    guess.node,
    sums,
    out.node,
    home.node,
  );

  function show() {
    const trip = thereAndHome(distance, get("out"), get("home"));
    const late = toNearest(trip.total, 1) - toNearest(trip.guessed, 1);
    const [end, wrong] = [at(trip.total), at(trip.guessed)];
    bars.replaceChildren(
      bar("first", at(0), at(trip.first), 192, duration(trip.first)),
      bar("second", at(trip.first), end, 192, duration(trip.second)),
      label(say("If the mean of the speeds were right"), 40, 312, {
        "text-anchor": "start",
        class: "nav-strong",
      }),
      bar("not-so", at(0), wrong, 328, timeAt(trip.guessed, trip.guess)),
      draw("path", { class: "nav-now", d: late ? `M${end} 322V420M${wrong} 356H${end}` : "" }),
      late
        ? label(say("{minutes} min late", { minutes: late }), end - 10, 414, {
            class: "nav-strong nav-warm",
            "text-anchor": "end",
          })
        : draw("g", {}),
    );
    for (const [n, minutes] of [trip.first, trip.second].entries()) {
      set(grips[n], {
        transform: `translate(${at(n ? trip.total : trip.first)} 262)`,
        "aria-valuenow": toNearest(minutes, 1),
        "aria-valuetext": timeAt(minutes, get(n ? "home" : "out")),
      });
    }
    mean.value.textContent = knots(trip.mean);
    guess.value.textContent = knots(trip.guess);
    showLines(sums, [
      say("Time: {sum} min", {
        sum: `${toNearest(trip.first, 1)} + ${toNearest(trip.second, 1)} = ${toNearest(trip.total, 1)}`,
      }),
      say("Mean: {sum}", {
        sum: `60 × ${tenths(2 * distance)} ÷ ${toNearest(trip.total, 1)} = ${knots(trip.mean)}`,
      }),
    ]);
    out.show(get("out"));
    home.show(get("home"));
    sentence.textContent = said(trip, get("out"), get("home"));
  }

  for (const [n, name] of ["out", "home"].entries()) {
    const minutes = () => (distance / get(name)) * HOUR;
    slides(
      grips[n],
      drawing,
      { from: (x) => (x / 560) * most, now: minutes, step: 5, fine: 1 },
      (value, done) => {
        const speed = toNearest(((distance * HOUR) / Math.max(value, 1)) * 10, 1) / 10;
        const by = value - minutes();
        // A key always moves: where a minute is less than a tenth of a knot, by that tenth.
        const stuck = done && by && speed === get(name);
        change(name)(stuck ? speed - Math.sign(by) / 10 : by ? speed : get(name), done);
      },
    );
  }
  model.on("change:out change:home", show);
  root.append(node);
  show();
  return () => model.off("change:out change:home", show);
}

/** @param {number} minutes @param {number} speed */
const timeAt = (minutes, speed) =>
  say("{time} at {speed}", { time: duration(minutes), speed: knots(speed) });

/** @param {ReturnType<typeof thereAndHome>} trip @param {number} out @param {number} home */
function said(trip, out, home) {
  if (out === home) return say("Both ways at one speed: only then is the mean of the speeds right.");
  const slow = Math.max(trip.first, trip.second);
  const share = toNearest((slow / trip.total) * 100, 1);
  return say(
    "The slow half lasts longer: {share} % of the time you go at {slow}. So the mean, {mean}, " +
      "lies nearer to it.",
    { share, slow: knots(Math.min(out, home)), mean: knots(trip.mean) },
  );
}

export default { render };
