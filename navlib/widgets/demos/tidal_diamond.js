// @ts-check
// A tidal diamond: from the watch to the row, and from the row to an arrow on the chart.

const REACH = 6.5 * HOUR;
const NEAR = 40; // a diamond so near the chosen one would lie under its arrow
const [STRIP_LEFT, CELL, STRIP] = [22, 46, 478];
/** @param {number} minutes from high water @returns {number} where that lies on the strip */
const hourAt = (minutes) => STRIP_LEFT + CELL * (6.5 + minutes / HOUR);

/** @typedef {[number, number, number]} Row  set, spring rate, neap rate */

/** @param {number} minutes from high water @returns {number} the row's hour */
const rowOf = (minutes) => within(Math.floor((minutes + 30) / HOUR), -6, 6);

/** @param {number} hour @returns {string} */
const hourWords = (hour) =>
  hour === 0
    ? say("at HW")
    : hour < 0
      ? say("{hours} h before HW", { hours: -hour })
      : say("{hours} h after HW", { hours: hour });

/** @param {{model: any, el: HTMLElement}} context */
function render({ model, el: root }) {
  /** @param {string} name */
  const get = (name) => model.get(name);
  const change = changer(model);
  const { land, diamonds, spots, hours, means } = get("data");
  const ahead = () => (get("summer") ? HOUR : 0);
  const fromHigh = () => get("watch") - ahead() - get("high");
  /** @param {number} minutes from high water @param {boolean} done */
  const put = (minutes, done) =>
    change("watch")(get("high") + ahead() + within(toNearest(minutes, 1), -REACH + 1, REACH - 1), done);

  const streams = draw("g", { class: "nav-plain" });
  const letters = draw("g", { class: "nav-plain" });
  const arrow = draw("g", { class: "nav-plain" });
  const strip = draw("g", { class: "nav-plain" });
  const time = slider(say("The watch"), -REACH, REACH, grip());
  const drawing = drawingOf(
    568,
    draw("path", { class: "nav-land", d: land.map(ring).join(""), "fill-rule": "evenodd" }),
    streams,
    letters,
    arrow,
    draw("path", { class: "nav-axis", d: "M0 440H640" }),
    northArrow(606, 62),
    strip,
    time,
  );

  const which = oneOf(
    say("Which diamond?"),
    Object.keys(diamonds).map((letter) => [letter, letter]),
    change("letter"),
  );
  const season = oneOf(
    say("The clocks ashore"),
    [
      [true, say("summer: BST")],
      [false, say("winter: GMT")],
    ],
    (summer) => {
      const at = fromHigh();
      model.set("summer", summer);
      put(at, true);
    },
  );
  const row = reading(say("row"));
  const sets = reading(say("sets to"));
  const rate = reading(say("rate today"));
  const sums = el("ul", { class: "nav-sums" });
  const watch = quantityControl(
    say("On the watch"),
    {
      min: -REACH + 1,
      max: REACH - 1,
      step: 1,
      unit: say("ashore"),
      say: (minutes) => clock(get("high") + ahead() + minutes),
      write: (minutes) => clock(get("high") + ahead() + minutes),
      read: (text) => nearest(clockRead(text) - ahead() - get("high")),
    },
    put,
  );
  const high = quantityControl(
    say("High water at Kessoray Harbour"),
    { min: 0, max: DAY - 1, step: 1, unit: "UT", say: clock, write: clock, read: clockRead },
    (value, done) => {
      const at = fromHigh();
      model.set("high", within(toNearest(value, 1), 0, DAY - 1));
      put(at, done);
    },
  );
  const range = quantityControl(
    say("Range today"),
    { min: 1.2, max: 4.6, step: 0.1, unit: "m", say: metres },
    (value, done) => change("range", 1.2, 4.6)(toNearest(value * 10, 1) / 10, done),
  );
  const { node, sentence } = demoFrame(
    say("The stream at a diamond"),
    say("A chart with streams as arrows, and a strip of the thirteen hours about high water"),
    drawing,
    which.node,
    row.node,
    sets.node,
    rate.node,
    sums,
    watch.node,
    season.node,
    high.node,
    range.node,
  );

  function show() {
    const minutes = fromHigh();
    const hour = rowOf(minutes);
    const diamond = diamonds[get("letter")];
    /** @type {Row} */
    const now = diamond.rows[hour + 6];
    const today = rateToday(now.slice(1), means, get("range"));
    streams.replaceChildren(
      draw("path", {
        class: "nav-arrow-small",
        d: hours[hour + 6]
          .map((/** @type {Row} */ one, /** @type {number} */ n) =>
            smallArrow(spots[n], one[0], rateToday(one.slice(1), means, get("range"))),
          )
          .join(""),
      }),
    );
    letters.replaceChildren(
      ...Object.entries(diamonds)
        .filter(([, { at }]) => Math.hypot(at[0] - diamond.at[0], at[1] - diamond.at[1]) > NEAR)
        .map(([letter, { at }]) => lozenge(letter, at, false)),
    );
    arrow.replaceChildren(
      bigArrow(diamond.at, now[0], today),
      lozenge(get("letter"), diamond.at, true),
    );
    strip.replaceChildren(...cells(hour, minutes, ahead()));
    set(time, {
      transform: `translate(${hourAt(minutes)} ${STRIP + 64})`,
      "aria-valuenow": minutes,
      "aria-valuetext": say("{time}: {row}, sets {set}, {rate}", {
        time: clock(get("watch")),
        row: hourWords(hour),
        set: bearing(now[0], "T"),
        rate: knots(today),
      }),
    });
    which.show(get("letter"));
    season.show(get("summer"));
    row.value.textContent = hourWords(hour);
    sets.value.textContent = bearing(now[0], "T");
    rate.value.textContent = knots(today);
    showLines(sums, [
      say("Diamond {letter}: {name}", { letter: get("letter"), name: diamond.name }),
      say("Watch {watch} {zone} = {table} UT, HW {high} UT", {
        watch: clock(get("watch")),
        zone: ahead() ? "BST" : "GMT",
        table: clock(get("watch") - ahead()),
        high: clock(get("high")),
      }),
      say("{time} {side} high water", {
        time: duration(Math.abs(minutes)),
        side: minutes < 0 ? say("before") : say("after"),
      }),
      say("At springs {springs}, at neaps {neaps}", { springs: knots(now[1]), neaps: knots(now[2]) }),
    ]);
    watch.show(minutes);
    high.show(get("high"));
    range.show(get("range"));
    sentence.textContent = told(diamond.rows, minutes, hour, ahead());
  }

  /** @param {number} minutes @returns {number} the same clock time, in the tide about high water */
  const nearest = (minutes) => {
    const day = ((minutes % DAY) + DAY) % DAY;
    return day > DAY / 2 ? day - DAY : day;
  };
  slides(
    time,
    drawing,
    { from: (x) => ((x - hourAt(0)) / CELL) * HOUR, now: fromHigh, step: 10, fine: 1 },
    put,
  );
  const watched = "change:letter change:high change:watch change:summer change:range";
  model.on(watched, show);
  root.append(node);
  show();
  return () => model.off(watched, show);
}

/** What comes of the watch's time put into the table as it is.
 * @param {Row[]} rows @param {number} minutes @param {number} hour @param {number} ahead */
function told(rows, minutes, hour, ahead) {
  if (!ahead) {
    const other = rows[6 - hour];
    return hour
      ? say("Before and after mixed up, you would read {row}: sets {set}.", {
          row: hourWords(-hour),
          set: bearing(other[0], "T"),
        })
      : say("At high water the stream runs on. Slack comes at another time.");
  }
  const late = rowOf(minutes + ahead);
  if (late === hour) return say("The strip ends here: beyond six hours count from the next high water.");
  return say("With the watch’s time as it stands you would read the row {row}: sets {set}, {springs} at springs.", {
    row: hourWords(late),
    set: bearing(rows[late + 6][0], "T"),
    springs: knots(rows[late + 6][1]),
  });
}

export default { render };
