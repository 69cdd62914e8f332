// @ts-check
// Distance, speed and time on one leg: two of them given, the third follows.

const LEG = 8; // miles that are drawn
const FASTEST = 8;
const LONGEST = 4 * HOUR;
const mileAt = scale(60, 580, LEG);

/**
 * @param {string} find @param {number} distance NM @param {number} speed kn @param {number} minutes
 * @returns {[number, number, number]} the same, the one that `find` names from the other two
 */
function worked(find, distance, speed, minutes) {
  if (find === "time") return [distance, speed, (distance / speed) * HOUR];
  if (find === "speed") return [distance, (distance / minutes) * HOUR, minutes];
  return [(speed * minutes) / HOUR, speed, minutes];
}

/** @param {number} v knots */
const oneMile = (v) =>
  say("One mile: {sum}", { sum: `60 ÷ ${tenths(v)} = ${minutesWritten(HOUR / v)}` });

/** @type {Record<string, (d: number, v: number, t: number) => string[]>} */
const SUMS = {
  time: (d, v, t) => [
    oneMile(v),
    `${miles(d)}: ${tenths(d)} × ${minutesWritten(HOUR / v)} = ${minutesWritten(t)}`,
  ],
  distance: (d, v, t) => [
    oneMile(v),
    say("In {minutes} min: {sum}", {
      minutes: toNearest(t, 1),
      sum: `${tenths(v)} × ${toNearest(t, 1)} ÷ 60 = ${miles(d)}`,
    }),
  ],
  speed: (d, v, t) => [
    `60 × ${tenths(d)} ÷ ${toNearest(t, 1)} = ${knots(v)}`,
    oneMile(v),
  ],
};

/** @type {Record<string, string>} */
const FOUND = { time: say("time"), distance: say("distance"), speed: say("speed") };

/** @param {number} minutes @returns {string} in tenths where it is not whole: 17.1 min */
const minutesWritten = (minutes) => `${toNearest(minutes * 10, 1) / 10} min`;

/** @param {{model: any, el: HTMLElement}} context */
function render({ model, el: root }) {
  /** @param {string} name */
  const get = (name) => model.get(name);
  const now = () => worked(get("find"), get("distance"), get("speed"), get("minutes"));
  /** @param {string} name @returns {(value: number, done: boolean) => void} */
  const change = (name) => (value, done) => {
    model.set(name, value);
    if (get("find") === "distance") {
      model.set("minutes", Math.min(get("minutes"), Math.floor((LEG / get("speed")) * HOUR)));
    }
    if (done) model.save_changes();
  };
  /** Where the boat is put: the distance, or the time in which it comes there.
   * @param {number} distance @param {boolean} done */
  function move(distance, done) {
    const there = within(distance, 0.1, LEG);
    if (get("find") !== "distance") return change("distance")(there, done);
    change("minutes")(within(toNearest((there / get("speed")) * HOUR, 1), 1, LONGEST), done);
  }

  const boat = slider(say("The boat"), 0, LEG, draw("circle", { class: "nav-reach", r: 44 }), boatFromAbove());
  const gone = draw("path", { class: "nav-sight" });
  const down = draw("path", { class: "nav-across" });
  const ruler = draw("g", {});
  const mile = draw("path", { class: "nav-axis" });
  const mileWords = label("", mileAt(0), 64, { class: "nav-strong", "text-anchor": "start" });
  const drawing = drawingOf(
    400,
    draw("path", { class: "nav-land", d: "M0 118Q44 128 46 168T34 226Q26 252 0 258Z" }),
    label(say("The way, in miles"), 620, 40, { "text-anchor": "end" }),
    mile,
    mileWords,
    mileLine(mileAt, LEG, 180),
    gone,
    down,
    boat,
    label(say("The time, at this speed"), 620, 378, { "text-anchor": "end" }),
    ruler,
  );

  const finds = oneOf(
    say("What do you want to find?"),
    [
      ["time", say("Find the time")],
      ["distance", say("the distance")],
      ["speed", say("the speed")],
    ],
    (find) => {
      const [distance, speed, minutes] = now();
      model.set("distance", within(toNearest(distance, 0.1), 0.1, LEG));
      model.set("speed", within(toNearest(speed, 0.1), 1, FASTEST));
      model.set("minutes", within(toNearest(minutes, 1), 10, LONGEST));
      change("find")(find, true);
    },
  );
  const found = reading("");
  const sums = el("ul", { class: "nav-sums" });
  /** @type {Record<string, ReturnType<typeof quantityControl>>} */
  const controls = {
    distance: quantityControl(
      say("Distance"),
      { min: 0.1, max: LEG, step: 0.1, unit: "NM", say: miles },
      change("distance"),
    ),
    speed: quantityControl(
      say("Speed over the ground"),
      { min: 1, max: FASTEST, step: 0.5, unit: "kn", say: knots },
      change("speed"),
    ),
    time: quantityControl(
      say("Time"),
      { min: 10, max: LONGEST, step: 1, unit: "min", say: duration },
      change("minutes"),
    ),
  };
  const { node, sentence } = demoFrame(
    say("Distance, speed and time"),
    say("A boat on its way along a line of miles, with the time below"),
    drawing,
    finds.node,
    found.node,
    sums,
    ...Object.values(controls).map((control) => control.node),
  );

  function show() {
    const find = get("find");
    const [distance, speed, minutes] = now();
    const x = mileAt(Math.min(distance, LEG));
    const most = (LEG / speed) * HOUR;
    const at = scale(mileAt(0), mileAt(LEG), most);
    set(gone, { d: `M${mileAt(0)} 180H${x}` });
    set(down, { d: `M${x} 180V284` });
    set(boat, {
      transform: `translate(${x} 180)`,
      "aria-valuenow": tenths(distance),
      "aria-valuetext": say("{miles} gone, {time}", {
        miles: miles(distance),
        time: duration(minutes),
      }),
    });
    const step = markEvery(most);
    ruler.replaceChildren(timeAxis(at, Math.floor(most / step) * step, 284));
    ruler.append(draw("path", { class: "nav-axis", d: `M${at(0)} 284H${mileAt(LEG)}` }));
    set(mile, { d: `M${mileAt(0)} 132v-14H${mileAt(1)}v14M${mileAt(0.5)} 118V76` });
    mileWords.textContent = say("one mile: {time}", { time: minutesWritten(HOUR / speed) });
    finds.show(find);
    found.node.firstChild.textContent = FOUND[find];
    found.value.textContent =
      find === "time" ? duration(minutes) : find === "speed" ? knots(speed) : miles(distance);
    found.more.textContent = find === "time" && minutes >= HOUR ? `= ${toNearest(minutes, 1)} min` : "";
    controls.distance.show(toNearest(distance, 0.1));
    controls.speed.show(speed);
    controls.time.show(toNearest(minutes, 1));
    for (const [name, control] of Object.entries(controls)) control.node.hidden = name === find;
    showLines(sums, SUMS[find](distance, speed, minutes));
    sentence.textContent = say(
      "At {speed} you need {time} for one mile, and in six minutes you come {miles} NM.",
      {
        speed: knots(speed),
        time: minutesWritten(HOUR / speed),
        miles: toNearest(speed * 10, 1) / 100,
      },
    );
  }

  slides(boat, drawing, { from: (x) => (x / 520) * LEG, now: () => now()[0], step: 0.5, fine: 0.1 }, move);
  const watched = "change:find change:distance change:speed change:minutes";
  model.on(watched, show);
  root.append(node);
  show();
  return () => model.off(watched, show);
}

export default { render };
