// @ts-check
// One latitude in three ways of writing: decimal degrees, decimal minutes, minutes and seconds.

const SIXTY = 60;
const HUNDRED_WAYS = 100;
const DEGREE = SIXTY * SIXTY; // seconds
const MILE = 1852; // metres
const angleAt = scale(56, 596, 1); // a part of the whole strip
const [DEGREE_Y, MINUTE_Y] = [78, 362]; // the strips' upper edges

/**
 * A latitude as it is written, of `degrees` and `seconds` more: rounded in its last figure.
 * @param {number} degrees @param {number} seconds @returns {[string, string, string]}
 */
function threeWays(degrees, seconds) {
  const hundredths = toNearest((seconds * HUNDRED_WAYS) / SIXTY, 1);
  const minutes = [Math.floor(hundredths / HUNDRED_WAYS), hundredths % HUNDRED_WAYS].map(two).join(".");
  const whole = `${two(Math.floor(seconds / SIXTY))}'${two(seconds % SIXTY)}"`;
  const decimals = String(toNearest((seconds * 100_000) / DEGREE, 1)).padStart(5, "0");
  return [`${degrees}.${decimals}°N`, `${degrees}°${minutes}'N`, `${degrees}°${whole}N`];
}

/** @param {number} metres @returns {string} */
const farWritten = (metres) =>
  metres < 1000 ? `${toNearest(metres, 1)} m` : `${toNearest(metres / 1000, 1)} km`;

/** @param {{model: any, el: HTMLElement}} context */
function render({ model, el: root }) {
  const degrees = model.get("degrees"); // stays as it was made
  const now = () => model.get("seconds");
  /** @param {number} seconds @param {boolean} done */
  function turn(seconds, done) {
    model.set("seconds", within(Math.round(seconds), 0, DEGREE - 1));
    if (done) model.save_changes();
  }
  /** @param {number} minute @param {boolean} done */
  const toMinute = (minute, done) => turn(within(minute, 0, 59) * SIXTY + (now() % SIXTY), done);
  /** @param {number} second @param {boolean} done */
  const toSecond = (second, done) =>
    turn(Math.floor(now() / SIXTY) * SIXTY + within(second, 0, 59), done);

  const under = draw("g", {});
  const marks = draw("g", {});
  const minute = slider(say("The minute"), 0, 59, grip());
  const second = slider(say("The second"), 0, 59, grip());
  const drawing = drawingOf(
    556,
    under,
    label(say("One degree"), 56, 32, { class: "nav-quiet", "text-anchor": "start" }),
    ...twoScales(DEGREE_Y),
    label(say("Its minute, enlarged"), 56, MINUTE_Y - 46, { class: "nav-quiet", "text-anchor": "start" }),
    ...twoScales(MINUTE_Y),
    marks,
    minute,
    second,
  );
  const ways = [say("decimal degrees"), say("degrees and minutes"), say("and seconds")].map(reading);
  const sums = el("ul", { class: "nav-sums" });
  const whole = quantityControl(
    say("Decimal degrees"),
    {
      min: 0,
      max: DEGREE - 1,
      step: 1,
      unit: "°N",
      say: (seconds) => threeWays(degrees, seconds)[0],
      write: (seconds) => threeWays(degrees, seconds)[0].slice(0, -2),
      read: (text) => toNearest((Number(text.trim().replace(",", ".") || NaN) - degrees) * DEGREE, 1),
    },
    turn,
  );
  const part = quantityControl(
    say("Seconds in the minute"),
    { min: 0, max: 59, step: 1, unit: "″", say: (value) => `${value}″` },
    toSecond,
  );
  whole.node.classList.add("nav-long");
  const { node, sentence } = demoFrame(
    say("One latitude, three ways"),
    say("A degree with its minutes and its hundredths, and one minute enlarged"),
    drawing,
    ...ways.map((way) => way.node),
    sums,
    whole.node,
    part.node,
  );

  function show() {
    const seconds = now();
    const written = threeWays(degrees, seconds);
    const left = seconds % SIXTY;
    for (const [n, text] of written.entries()) ways[n].value.textContent = text;
    const minutesIn = Math.floor(seconds / SIXTY);
    const [from, to] = [angleAt(minutesIn / SIXTY), angleAt((minutesIn + 1) / SIXTY)];
    const wrongMinute = seconds / DEGREE / 0.6; // hundredths taken for minutes, as a part of the strip
    under.replaceChildren(
      draw("path", {
        class: "nav-enlarged",
        d: `M${from} ${DEGREE_Y + 112}L56 ${MINUTE_Y}H596L${to} ${DEGREE_Y + 112}Z`,
      }),
    );
    marks.replaceChildren(
      ...namesOf(seconds / DEGREE, DEGREE_Y, say("minutes"), say("decimal degrees")),
      ...namesOf(left / SIXTY, MINUTE_Y, say("seconds"), say("decimal minutes")),
      ...wrongMark(wrongMinute, seconds / DEGREE, DEGREE_Y, say("taken for minutes")),
      ...nowMark(seconds / DEGREE, DEGREE_Y),
      ...wrongMark(left / HUNDRED_WAYS, left / SIXTY, MINUTE_Y, say("taken for decimals")),
      ...nowMark(left / SIXTY, MINUTE_Y),
    );
    set(minute, {
      transform: `translate(${angleAt(seconds / DEGREE)} ${DEGREE_Y + 134})`,
      "aria-valuenow": minutesIn,
      "aria-valuetext": written[1],
    });
    set(second, {
      transform: `translate(${angleAt(left / SIXTY)} ${MINUTE_Y + 134})`,
      "aria-valuenow": left,
      "aria-valuetext": written[2],
    });
    for (const [n, metres] of [0.00001 * SIXTY * MILE, 0.01 * MILE, MILE / SIXTY].entries()) {
      ways[n].more.textContent = say("one in the last figure: {far}", { far: farWritten(metres) });
    }
    showLines(sums, [
      say("Behind the point × 60: {part} × 60 = {minutes}′", {
        part: written[0].slice(2, -2),
        minutes: written[1].split("°")[1].slice(0, -2),
      }),
      say("Seconds ÷ 60: {seconds} ÷ 60 = .{part}′, and not .{taken}′", {
        seconds: left,
        part: two(toNearest((left * HUNDRED_WAYS) / SIXTY, 1)),
        taken: two(left),
      }),
    ]);
    whole.show(seconds);
    part.show(left);
    sentence.textContent = slipSaid(degrees, seconds);
  }

  const along = (/** @type {number} */ x) => (x / 540) * SIXTY;
  slides(
    minute,
    drawing,
    { from: along, now: () => Math.floor(now() / SIXTY), step: 5, fine: 1 },
    toMinute,
  );
  slides(second, drawing, { from: along, now: () => now() % SIXTY, step: 5, fine: 1 }, toSecond);
  model.on("change:seconds", show);
  root.append(node);
  show();
  return () => model.off("change:seconds", show);
}

/**
 * A strip that counts to sixty above and in tenths below.
 * @param {number} y @returns {any[]}
 */
function twoScales(y) {
  const parts = [
    draw("rect", { class: "nav-bar nav-bar-first", x: angleAt(0), y, width: 540, height: 40 }),
    draw("rect", { class: "nav-bar nav-bar-second", x: angleAt(0), y: y + 40, width: 540, height: 40 }),
  ];
  for (let ten = 0; ten <= SIXTY; ten += 10) {
    const x = angleAt(ten / SIXTY);
    parts.push(
      draw("path", { class: "nav-axis", d: `M${x} ${y}v12` }),
      label(String(ten), x, y - 10, { class: "nav-strong" }),
    );
  }
  for (let tenth = 0; tenth <= 10; tenth++) {
    const x = angleAt(tenth / 10);
    const long = tenth % 2 === 0;
    parts.push(draw("path", { class: "nav-axis", d: `M${x} ${y + 80}v${long ? -12 : -8}` }));
    if (long) {
      const words = tenth === 10 ? "1" : `.${two(tenth * 10)}`;
      parts.push(label(words, x, y + 106, { class: "nav-strong nav-on-paper" }));
    }
  }
  return parts;
}

/** The names of a strip's scales, at the end that is free.
 * @param {number} part @param {number} y @param {string} upper @param {string} lower */
function namesOf(part, y, upper, lower) {
  const end = part > 0.5 ? { x: 68, "text-anchor": "start" } : { x: 584, "text-anchor": "end" };
  return [
    draw("text", { ...end, y: y + 29, class: "nav-on-tint" }, upper),
    draw("text", { ...end, y: y + 69, class: "nav-on-paper" }, lower),
  ];
}

/** @param {number} part @param {number} y @returns {any[]} */
const nowMark = (part, y) => [draw("path", { class: "nav-now", d: `M${angleAt(part)} ${y - 4}V${y + 120}` })];

/**
 * Where the decimals lie if they are taken for sixtieths, or the other way about: dashed, with words.
 * @param {number} part @param {number} right @param {number} y @param {string} words @returns {any[]}
 */
function wrongMark(part, right, y, words) {
  if (part > 1 || Math.abs(part - right) < 0.01) return [];
  const x = angleAt(part);
  return [
    draw("path", { class: "nav-rounded", d: `M${x} ${y}V${y + 152}` }),
    label(words, within(x, 130, 510), y + 176, { class: "nav-quiet nav-on-paper" }),
  ];
}

/** What comes of taking the figures behind the point for minutes.
 * @param {number} degrees @param {number} seconds @returns {string} */
function slipSaid(degrees, seconds) {
  const [right, wrong] = [seconds / SIXTY, seconds / 36];
  if (seconds === 0) return say("A whole degree: all three ways agree.");
  const shown = `${degrees}°${two(Math.floor(toNearest(wrong, 0.01)))}'`;
  return wrong >= SIXTY
    ? say("Taken for minutes, the figures behind the point would be {shown}: there are only 60, so you notice.", { shown })
    : say("Taken for minutes, the figures behind the point would be {shown}: nothing looks wrong, and you are {far} away.", {
        shown,
        far: farWritten((wrong - right) * MILE),
      });
}

export default { render };
