// @ts-check
// A printed rose and the needle as the years go by: the ink stays, the needle moves on.

const FLOOR = 322; // where the picture of the rose ends

/**
 * What becomes of a rose, in minutes of arc, east positive.
 * @param {number} printed @param {number} change in one year @param {number} years
 * @param {string} slip  what is done wrong
 */
function aged(printed, change, years, slip) {
  const all = change * years;
  /** @type {Record<string, number>} */
  const yours = {
    none: printed + all,
    unchanged: printed,
    reversed: printed - all,
    hundredths: printed + toNearest(Math.abs(all) * 0.6, 1) * Math.sign(all),
  };
  return { all, now: printed + all, yours: yours[slip] };
}

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
  const toYear = (value, done) => change("now")(within(value, get("year"), LAST), done);

  const printedArrow = draw("path", { class: "nav-printed", d: `M0 0V${-RIM + 26}` });
  const wedge = draw("path", { class: "nav-quarter" });
  const wrong = draw("path", { class: "nav-back", d: `M0 0V${-RIM + 26}` });
  const needle = draw("path", { class: "nav-sight", d: `M0 0V${-RIM + 50}` });
  const needleHead = draw("path", { class: "nav-arrowhead nav-arrowhead-C", d: "M-10 28L0 0L10 28Z" });
  const dates = ["", "nav-warm"].map((kind) =>
    label("", 0, 0, { class: `nav-strong nav-on-paper ${kind}` }),
  );
  const truth = northArrow("T");
  const legend = label("", FOOT[0], FLOOR + 34, { class: "nav-strong" });
  const bridge = draw("g", {});
  const grips = slider(say("The year"), FIRST, LAST, grip());
  const drawing = drawingOf(
    456,
    draw(
      "svg",
      { width: 640, height: FLOOR },
      draw(
        "g",
        { transform: `translate(${FOOT})` },
        upperRing(),
        wedge,
        printedArrow,
        wrong,
        truth.node,
        needle,
        needleHead,
        ...dates,
      ),
    ),
    legend,
    yearAxis(),
    bridge,
    grips,
  );

  const slips = oneOf(
    say("What is done"),
    [
      ["none", say("Worked rightly")],
      ["unchanged", say("Taken as printed")],
      ["reversed", say("Change the wrong way")],
      ["hundredths", say("Minutes as decimals")],
    ],
    (slip) => change("slip")(slip, true),
  );
  const today = reading("");
  const yours = reading(say("with this slip"));
  const sums = el("ul", { class: "nav-sums" });
  const printed = angleControl(
    say("Variation as printed"),
    { min: -15, max: 15, step: 0.5, east: true },
    change("printed"),
  );
  const yearOf = quantityControl(
    say("Year in the rose"),
    { min: FIRST, max: 2030, step: 1, unit: "", heard: say("year"), say: String },
    (value, done) => {
      model.set("now", Math.max(get("now"), value));
      change("year")(value, done);
    },
  );
  const each = quantityControl(
    say("Change in one year"),
    {
      min: -15,
      max: 15,
      step: 1,
      unit: "",
      heard: say("minutes"),
      say: yearlyWords,
      write: yearlyWords,
      read: yearlyRead,
    },
    change("yearly"),
  );
  const nowControl = quantityControl(
    say("The year in which you use it"),
    { min: FIRST, max: LAST, step: 1, unit: "", heard: say("year"), say: String },
    toYear,
  );
  const { node, sentence } = demoFrame(
    say("A rose grows old"),
    say("The upper part of a compass rose, its printed arrow and the needle, with a strip of years"),
    drawing,
    today.node,
    yours.node,
    sums,
    printed.node,
    yearOf.node,
    each.node,
    nowControl.node,
  );
  drawing.after(el("div", { class: "nav-under" }, slips.node));

  function show() {
    const [year, now, minutes] = [get("year"), get("now"), toNearest(get("printed") * 60, 1)];
    const [years, slip] = [now - year, get("slip")];
    const is = aged(minutes, get("yearly"), years, slip);
    truth.aim(0, RIM - 60);
    set(printedArrow, { transform: `rotate(${minutes / 60})` });
    set(needle, { transform: `rotate(${is.now / 60})` });
    const tip = along(0, 0, is.now / 60, RIM - 28);
    set(needleHead, { transform: `translate(${tip}) rotate(${is.now / 60})` });
    set(wedge, { d: wedgePath(RIM - 26, minutes / 60, is.now / 60) });
    for (const [n, angle] of [minutes, is.now].entries()) {
      const [x, y] = along(0, 0, angle / 60, 420 + 36 * n);
      const east = n ? is.all >= 0 : is.all < 0;
      set(dates[n], { x: x + (east ? 12 : -12), y, "text-anchor": east ? "start" : "end" });
      dates[n].textContent = String(n ? now : year);
    }
    set(dates[1], { visibility: years ? "visible" : "hidden" });
    set(wrong, {
      transform: `rotate(${is.yours / 60})`,
      visibility: slip === "none" ? "hidden" : "visible",
    });
    legend.textContent = `${degreesMinutes(minutes)} ${year} (${yearlyWords(get("yearly"))})`;
    bridge.replaceChildren(...span(year, now));
    set(grips, {
      transform: `translate(${yearAt(now)} ${STRIP})`,
      "aria-valuenow": now,
      "aria-valuetext": say("{year}: variation {variation}", {
        year: now,
        variation: degreesMinutes(is.now),
      }),
    });
    slips.show(slip);
    today.node.firstChild.textContent = say("variation in {year}", { year: now });
    today.value.textContent = degreesMinutes(is.now);
    today.more.textContent = say("for the compass: {whole}", {
      whole: eastWest(Math.sign(is.now) * toNearest(Math.abs(is.now) / 60, 1)),
    });
    yours.node.hidden = slip === "none";
    yours.value.textContent = degreesMinutes(is.yours);
    const out = Math.abs(is.yours - is.now);
    yours.more.textContent = out ? say("{angle} out", { angle: sizeOf(out) }) : "";
    showLines(sums, worked(minutes, get("yearly"), year, now, is));
    printed.show(get("printed"));
    yearOf.show(year);
    each.show(get("yearly"));
    nowControl.show(now);
    sentence.textContent = said(minutes, is, slip);
  }

  slides(
    grips,
    drawing,
    { from: (x) => (x / 560) * (LAST - FIRST), now: () => get("now"), step: 1, fine: 1 },
    toYear,
  );
  const watched = "change:printed change:year change:yearly change:now change:slip";
  model.on(watched, show);
  root.append(node);
  show();
  return () => model.off(watched, show);
}

/**
 * @param {number} printed @param {number} change @param {number} year @param {number} now
 * @param {ReturnType<typeof aged>} is @returns {string[]} the sums, line by line
 */
function worked(printed, change, year, now, is) {
  const sizes = [printed, is.all].map(sizeOf);
  const [large, small] = Math.abs(is.all) > Math.abs(printed) ? [sizes[1], sizes[0]] : sizes;
  const values = { large, small, result: degreesMinutes(is.now) };
  return [
    say("{from} to {to}: {years} years × {change} = {minutes}' = {all}", {
      from: year,
      to: now,
      years: now - year,
      change: yearlyWords(change),
      minutes: Math.abs(is.all),
      all: degreesMinutes(is.all),
    }),
    printed * is.all < 0
      ? say("different letters: {large} − {small} = {result}", values)
      : say("same letter: {large} + {small} = {result}", values),
  ];
}

/**
 * @param {number} printed @param {ReturnType<typeof aged>} is @param {string} slip
 * @returns {string}
 */
function said(printed, is, slip) {
  const out = Math.abs(is.yours - is.now);
  const moved = sizeOf(is.all);
  if (slip === "reversed" && out) {
    return say("Put on the wrong way, the change is missing and comes once more: {out} out, twice {moved}.", {
      out: sizeOf(out),
      moved,
    });
  }
  if (slip === "hundredths" && out) {
    return say("A degree has 60 minutes: {minutes}' is {moved}, not {wrong}°.", {
      minutes: Math.abs(is.all),
      moved,
      wrong: (Math.abs(is.all) / 100).toFixed(2),
    });
  }
  if (slip === "unchanged" && out) {
    const side = is.all > 0 ? say("right") : say("left");
    return say("The printed figure was right once. Today it leads you {moved} to the {side}.", { moved, side });
  }
  if (!is.all) return say("Nothing has changed yet: the needle lies on the printed arrow.");
  if (printed * is.now < 0) {
    return say("The needle has passed true north: the variation has changed its letter.");
  }
  const values = { moved, side: is.all > 0 ? say("east") : say("west") };
  return Math.abs(is.now) > Math.abs(printed)
    ? say("The ink stays, the needle moves: {moved} to the {side}, away from true north. The variation has grown.", values)
    : say("The ink stays, the needle moves: {moved} to the {side}, towards true north. The variation has shrunk.", values);
}

export default { render };
