// @ts-check
// A leg on which the stream turns: two speeds over the ground, worked piece by piece.

/**
 * @param {number} distance NM @param {number} speed kn through the water
 * @param {number} stream kn with the boat until it turns, then against it @param {number} turn min
 */
function passage(distance, speed, stream, turn) {
  const first = speed + stream;
  const second = speed - stream;
  const gone = Math.min((first * turn) / HOUR, distance);
  const before = Math.min(turn, (distance / first) * HOUR);
  const after = ((distance - gone) / second) * HOUR;
  return { first, second, gone, before, after, total: before + after };
}

/** @param {number} stream @returns {string} */
const withOrAgainst = (stream) =>
  stream === 0
    ? say("no stream")
    : stream > 0
      ? say("{rate} with you", { rate: knots(stream) })
      : say("{rate} against you", { rate: knots(-stream) });

/** @param {{model: any, el: HTMLElement}} context */
function render({ model, el: root }) {
  /** @param {string} name */
  const get = (name) => model.get(name);
  /** @param {string} name @param {number} low @param {number} high */
  const change = (name, low, high) => (/** @type {number} */ value, /** @type {boolean} */ done) => {
    model.set(name, within(value, low, high));
    if (done) model.save_changes();
  };
  const distance = get("distance"); // stays as it was made
  const mileAt = scale(48, 576, distance);
  const turned = change("turn", 0, 4 * HOUR);

  const way = draw("g", {});
  const bars = draw("g", {});
  const turn = slider(say("The turn of the stream"), 0, 4 * HOUR, grip());
  const drawing = drawingOf(
    520,
    label(say("The way: a dot every ten minutes"), 48, 42, { "text-anchor": "start", class: "nav-strong" }),
    mileLine(mileAt, distance, 116),
    way,
    label(say("The time it takes"), 48, 264, { "text-anchor": "start", class: "nav-strong" }),
    bars,
    turn,
  );

  const there = reading(say("from start to end"));
  const still = reading(say("without a stream"));
  const sums = el("ul", { class: "nav-sums" });
  const speed = quantityControl(
    say("Speed through the water"),
    { min: 2.5, max: 5, step: 0.5, unit: "kn", say: knots },
    change("speed", 2.5, 5),
  );
  const stream = quantityControl(
    say("Stream at first: + with you, − against you"),
    { min: -1.5, max: 1.5, step: 0.5, unit: "kn", say: withOrAgainst },
    change("stream", -1.5, 1.5),
  );
  const after = quantityControl(
    say("It turns after"),
    { min: 0, max: 4 * HOUR, step: 5, unit: "min", say: duration },
    turned,
  );
  const { node, sentence } = demoFrame(
    say("The stream turns"),
    say("A boat’s way with a dot every ten minutes, and its time as bars"),
    drawing,
    there.node,
    still.node,
    sums,
    speed.node,
    stream.node,
    after.node,
  );

  /** The longest the leg can take at this speed in this stream, in full hours: so the scale of
   *  time stays while the turn is moved. */
  const most = () =>
    Math.ceil(distance / (get("speed") - Math.abs(get("stream"))) - 1e-9) * HOUR;

  function show() {
    const [water, rate] = [get("speed"), get("stream")];
    const leg = passage(distance, water, rate, get("turn"));
    const plain = (distance / water) * HOUR;
    const at = scale(48, 576, most());
    const turnsOnTheWay = leg.after > 0.5 && leg.before > 0.5;
    way.replaceChildren(
      ...dots(leg, mileAt),
      ...streamArrow(rate, mileAt(0), mileAt(leg.gone), leg.before),
      ...streamArrow(-rate, mileAt(leg.gone), mileAt(distance), leg.after),
      draw("path", {
        class: "nav-not-here",
        d: turnsOnTheWay ? `M${mileAt(leg.gone)} 128V206` : "",
      }),
    );
    bars.replaceChildren(
      bar("first", at(0), at(leg.before), 280, duration(leg.before)),
      bar("second", at(leg.before), at(leg.total), 280, leg.after > 0.5 ? duration(leg.after) : ""),
      bar("not-so", at(0), at(plain), 374, say("{time} without a stream", { time: duration(plain) })),
      timeAxis(at, most(), 452),
    );
    set(turn, {
      transform: `translate(${at(Math.min(get("turn"), most()))} 350)`,
      "aria-valuenow": get("turn"),
      "aria-valuetext": say("after {time}, {miles} gone", {
        time: duration(get("turn")),
        miles: miles(leg.gone),
      }),
    });
    there.value.textContent = duration(leg.total);
    still.value.textContent = duration(plain);
    showLines(sums, lines(leg, water, rate, distance));
    speed.show(water);
    stream.show(rate);
    after.show(get("turn"));
    sentence.textContent = told(leg, plain, rate);
  }

  slides(
    turn,
    drawing,
    { from: (x) => (x / 528) * most(), now: () => get("turn"), step: 10, fine: 5 },
    turned,
  );
  const watched = "change:speed change:stream change:turn";
  model.on(watched, show);
  root.append(node);
  show();
  return () => model.off(watched, show);
}

/** @typedef {ReturnType<typeof passage>} Passage */

/** @param {Passage} leg @param {(miles: number) => number} at @returns {any[]} */
function dots(leg, at) {
  const places = [];
  for (let minutes = 10; minutes < leg.total - 0.01; minutes += 10) {
    const early = minutes <= leg.before;
    const gone = early
      ? (leg.first * minutes) / HOUR
      : leg.gone + (leg.second * (minutes - leg.before)) / HOUR;
    places.push(
      draw("circle", {
        class: early ? "nav-dot" : "nav-dot nav-dot-second",
        cx: at(gone),
        cy: 116,
        r: 7,
      }),
    );
  }
  return places;
}

/**
 * The stream over a part of the way: an arrow the way it runs, and its words.
 * @param {number} rate @param {number} from @param {number} to @param {number} minutes
 * @returns {any[]}
 */
function streamArrow(rate, from, to, minutes) {
  if (minutes < 0.5 || !rate) return [];
  const middle = (from + to) / 2;
  const half = Math.min((to - from) / 2 - 6, 14 + Math.abs(rate) * 46);
  const way = Math.sign(rate);
  const words = to - from < 190 ? knots(Math.abs(rate)) : withOrAgainst(rate);
  const parts = [
    draw("path", {
      class: "nav-stream",
      d:
        `M${middle - way * half} 160H${middle + way * half}` +
        `m${-way * 14} -9l${way * 14} 9l${-way * 14} 9`,
    }),
  ];
  return half < 8 ? [] : to - from < 76 ? parts : [...parts, label(words, middle, 204)];
}

/** @param {Passage} leg @param {number} water @param {number} rate @param {number} distance */
function lines(leg, water, rate, distance) {
  const sign = (/** @type {number} */ one) => (one < 0 ? "−" : "+");
  const over = (/** @type {number} */ one, /** @type {number} */ ground) =>
    say("{sum} over the ground", {
      sum: `${tenths(water)} ${sign(one)} ${tenths(Math.abs(one))} = ${knots(ground)}`,
    });
  const at = (
    /** @type {number} */ time,
    /** @type {number} */ speed,
    /** @type {number} */ gone,
  ) =>
    say("{time} at {speed}: {miles}", {
      time: duration(time),
      speed: knots(speed),
      miles: miles(gone),
    });
  const left = distance - leg.gone;
  return [
    ...(leg.before > 0.5
      ? [over(rate, leg.first), at(leg.before, leg.first, leg.gone)]
      : []),
    ...(leg.after > 0.5
      ? [
          over(-rate, leg.second),
          say("{miles} left at {speed}: {time}", {
            miles: miles(left),
            speed: knots(leg.second),
            time: duration(leg.after),
          }),
        ]
      : []),
  ];
}

/** @param {Passage} leg @param {number} plain @param {number} rate */
function told(leg, plain, rate) {
  if (rate === 0) return say("No stream: the speed over the ground is the speed through the water.");
  if (leg.after < 0.5) return say("The stream turns only after you are there: one speed for the whole way.");
  if (leg.before < 0.5) return say("The stream has turned before you start: one speed for the whole way.");
  const gain = toNearest(plain, 1) - toNearest(leg.total, 1);
  const time = duration(Math.abs(gain));
  const net =
    gain === 0
      ? say("What it takes and what it gives are the same here.")
      : gain > 0
        ? say("In all it saves you {time}.", { time })
        : say("In all it costs you {time}.", { time });
  return `${net} ${say("Dots close together are slow miles, and the slow part lasts.")}`;
}

export default { render };
