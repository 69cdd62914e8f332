// @ts-check
// A leg on a sheet by ruler and fraction, and by the scale bar; what a copier does to both.

const MILE = 1852; // metres

/**
 * @param {number} length mm on the sheet itself @param {number} one_to @param {number} copy per cent
 */
function measured(length, one_to, copy) {
  const ruler = toNearest((length * copy) / 100, 1);
  return {
    ruler,
    metres: (ruler * one_to) / 1000,
    true: (length * one_to) / 1000,
    copied: (one_to * 100) / copy,
  };
}

/** @param {{model: any, el: HTMLElement}} context */
function render({ model, el: root }) {
  /** @param {string} name */
  const get = (name) => model.get(name);
  /** @param {string} name @param {number} low @param {number} high */
  const change = (name, low, high) => (/** @type {number} */ value, /** @type {boolean} */ done) => {
    model.set(name, within(toNearest(value, 1), low, high));
    if (done) model.save_changes();
  };
  const stretch = change("length", 40, 110);

  const sheet = draw("g", {});
  const leg = draw("path", { class: "nav-run" });
  const ruler = millimetres(130);
  const compasses = dividersDrawn(56);
  const end = slider(say("B, the end of the leg"), 40, 110, pin());
  const letters = [label("A", 0, 0, { class: "nav-strong" }), label("B", 0, 0, { class: "nav-strong" })];
  const drawing = drawingOf(
    382,
    draw("rect", { class: "nav-wood", width: 640, height: 382 }),
    sheet,
    ruler,
    compasses.node,
    leg,
    ...letters,
    end,
  );

  const byRuler = reading(say("by ruler and fraction"));
  const byBar = reading(say("by the scale bar"));
  const sums = el("ul", { class: "nav-sums" });
  const scales = oneOf(
    say("Scale of the sheet"),
    [25000, 50000, 75000].map((one_to) => [one_to, fraction(one_to)]),
    (one_to) => {
      model.set("scale", one_to);
      model.save_changes();
    },
  );
  const long = quantityControl(
    say("The leg on the sheet"),
    { min: 40, max: 110, step: 1, unit: "mm", say: (mm) => `${mm} mm` },
    stretch,
  );
  const copied = quantityControl(
    say("The copier is set to"),
    { min: 80, max: 115, step: 1, unit: "%", say: (percent) => `${percent} %` },
    change("copy", 80, 115),
  );
  const { node, sentence } = demoFrame(
    say("From paper to ground"),
    say("A sheet with a leg from A to B, a ruler laid on it, and dividers on its scale bar"),
    drawing,
    byRuler.node,
    byBar.node,
    sums,
    scales.node,
    long.node,
    copied.node,
  );

  function show() {
    const [length, one_to, copy] = [get("length"), get("scale"), get("copy")];
    const is = measured(length, one_to, copy);
    const size = (MM * copy) / 100;
    /** @param {number} x mm on the sheet @param {number} y @returns {Point} */
    const at = (x, y) => [10 + x * size, 10 + y * size];
    const [a, b] = [at(START[0], START[1]), at(START[0] + length, START[1])];
    const mile = (MILE / one_to) * 1000; // mm on the sheet
    const [right, parts] = BARS[one_to];
    const whole = Math.min(Math.floor(is.true / MILE + 1e-9), right);
    const zero = START[0] + mile;
    sheet.replaceChildren(...sheetDrawn(one_to, at, size), ...barDrawn(mile, right, parts, at));
    const stands = zero + whole * mile;
    compasses.stand(at(stands - length, BAR), at(stands, BAR));
    set(leg, { d: `M${a[0]} ${a[1]}H${b[0]}` });
    set(ruler, { transform: `translate(${a[0]} ${a[1] + 5})` });
    set(letters[0], { x: a[0], y: a[1] - 16 });
    set(letters[1], { x: b[0], y: b[1] - 16 });
    set(end, {
      transform: `translate(${b[0]} ${b[1]})`,
      "aria-valuenow": length,
      "aria-valuetext": say("{ruler} mm by the ruler, {miles} by the bar", {
        ruler: is.ruler,
        miles: `${hundredths(is.true / MILE)} NM`,
      }),
    });
    byRuler.value.textContent = `${hundredths(is.metres / MILE)} NM`;
    byRuler.more.textContent = `= ${hundredths(is.metres / 1000)} km`;
    byBar.value.textContent = `${hundredths(is.true / MILE)} NM`;
    byBar.more.textContent = say("{whole} right of zero, the rest left", { whole });
    showLines(sums, [
      say("{ruler} mm × {scale} ÷ 1 000 000 = {km} km", {
        ruler: is.ruler,
        scale: fraction(one_to).slice(2),
        km: hundredths(is.metres / 1000),
      }),
      say("{km} ÷ 1.852 = {miles} NM", {
        km: hundredths(is.metres / 1000),
        miles: hundredths(is.metres / MILE),
      }),
    ]);
    scales.show(one_to);
    long.show(length);
    copied.show(copy);
    sentence.textContent = told(copy, is.copied, one_to);
  }

  slides(
    end,
    drawing,
    { from: (x) => x / ((MM * get("copy")) / 100), now: () => get("length"), step: 5, fine: 1 },
    stretch,
  );
  const watched = "change:length change:scale change:copy";
  model.on(watched, show);
  root.append(node);
  show();
  return () => model.off(watched, show);
}

/** @param {number} copy @param {number} copied @param {number} one_to */
function told(copy, copied, one_to) {
  if (copy === 100) {
    return say("One millimetre on this sheet is {metres} m on the ground. Ruler and bar agree.", {
      metres: one_to / 1000,
    });
  }
  const values = { copied: fraction(copied), printed: fraction(one_to), copy };
  return copy < 100
    ? say(
        "The copy is really {copied}, but its title still says {printed}. The ruler shows too " +
          "little. The bar shrank with the sheet, so it is true.",
        values,
      )
    : say(
        "The copy is really {copied}, but its title still says {printed}. The ruler shows too " +
          "much. The bar grew with the sheet, so it is true.",
        values,
      );
}

/** A place to take hold of; its middle at 0, 0. */
const pin = () =>
  draw(
    "g",
    {},
    draw("circle", { class: "nav-reach", r: 34 }),
    draw("circle", { class: "nav-place", r: 10 }),
    draw("path", { class: "nav-bow", d: "M-22 -5L-27 0L-22 5M22 -5L27 0L22 5" }),
  );

export default { render };
