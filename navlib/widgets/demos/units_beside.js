// @ts-check
// One distance beside rulers of nautical miles, of kilometres and of land miles.

const FARTHEST = 6; // nautical miles that are drawn
const [LEFT, RIGHT] = [34, 596];

/** @param {{model: any, el: HTMLElement}} context */
function render({ model, el: root }) {
  /** @type {Record<string, number>} metres in one of each */
  const metres = model.get("lengths");
  const at = scale(LEFT, RIGHT, FARTHEST * metres.NM);
  /** @param {number} value @param {boolean} done */
  function take(value, done) {
    model.set("miles", within(value, 0.1, FARTHEST));
    if (done) model.save_changes();
  }

  const here = draw("path", { class: "nav-now" });
  const half = draw("g", {});
  const end = slider(say("The end of the way"), 0.1, FARTHEST, grip());
  const drawing = drawingOf(
    470,
    here,
    ruler(say("nautical miles"), at, metres.NM, FARTHEST, 92, 10),
    half,
    ruler(say("kilometres"), at, metres.km, 11, 232, 2),
    ruler(say("land miles"), at, metres["statute mile"], 6.5, 372, 2),
    end,
  );

  const sea = reading(say("nautical miles"));
  const land = reading(say("kilometres"));
  const sums = el("ul", { class: "nav-sums" });
  const inMiles = quantityControl(
    say("Nautical miles"),
    { min: 0.1, max: FARTHEST, step: 0.1, unit: "NM", say: miles },
    take,
  );
  const inKilometres = quantityControl(
    say("Kilometres"),
    { min: 0.2, max: 11.1, step: 0.1, unit: "km", say: (km) => kilometres(km * 1000) },
    (km, done) => take((km * metres.km) / metres.NM, done),
  );
  const { node, sentence } = demoFrame(
    say("Miles and kilometres"),
    say("Three rulers of the same ground, with nautical miles, kilometres and land miles"),
    drawing,
    sea.node,
    land.node,
    sums,
    inMiles.node,
    inKilometres.node,
  );

  function show() {
    const way = model.get("miles") * metres.NM;
    const km = way / metres.km;
    const x = at(way);
    set(here, { d: `M${x} 66V428` });
    set(end, {
      transform: `translate(${x} 436)`,
      "aria-valuenow": hundredths(model.get("miles")),
      "aria-valuetext": say("{miles}, {kilometres}", {
        miles: miles(way / metres.NM),
        kilometres: kilometres(way),
      }),
    });
    const halved = at((km / 2) * metres.NM);
    half.replaceChildren(
      draw("path", { class: "nav-not-here", d: `M${halved} 74V148` }),
      label(say("half the kilometres"), halved - 8, 142, {
        class: "nav-quiet nav-fine",
        "text-anchor": "end",
      }),
    );
    if (halved < 210) set(half.lastChild, { x: x + 8, "text-anchor": "start" });
    sea.value.textContent = miles(way / metres.NM);
    sea.more.textContent = say("= {number} cables", { number: toNearest(way / metres.cable, 1) });
    land.value.textContent = kilometres(way);
    land.more.textContent = say("= {number} land miles", {
      number: tenths(way / metres["statute mile"]),
    });
    showLines(sums, [
      say("In the head: {km} ÷ 2 = {half}", {
        km: tenths(km),
        half: hundredths(toNearest(km, 0.1) / 2),
      }),
      say("and 8 % more: {miles} NM", { miles: hundredths((toNearest(km, 0.1) / 2) * 1.08) }),
    ]);
    inMiles.show(toNearest(model.get("miles"), 0.1));
    inKilometres.show(toNearest(km, 0.1));
    sentence.textContent = say(
      "{km} km taken for miles make the way {extra} NM too long. " +
        "Half the kilometres make it {short} NM too short.",
      {
        km: tenths(km),
        extra: tenths(km - way / metres.NM),
        short: hundredths(way / metres.NM - km / 2),
      },
    );
  }

  slides(
    end,
    drawing,
    {
      from: (x) => (x / (RIGHT - LEFT)) * FARTHEST,
      now: () => model.get("miles"),
      step: 0.5,
      fine: 0.1,
    },
    take,
  );
  model.on("change:miles", show);
  root.append(node);
  show();
  return () => model.off("change:miles", show);
}

/**
 * A ruler with its unit written above.
 * @param {string} words @param {(metres: number) => number} at @param {number} unit metres
 * @param {number} most units @param {number} y @param {number} parts of a unit
 */
function ruler(words, at, unit, most, y, parts) {
  const marks = [];
  for (let n = 0; n <= most * parts; n++) {
    const x = at((n / parts) * unit);
    const whole = n % parts === 0;
    marks.push(draw("path", { class: "nav-axis", d: `M${x} ${y}v${whole ? -18 : -9}` }));
    if (whole) marks.push(label(String(n / parts), x, y + 28, { class: `nav-on-paper ${n ? "nav-strong" : ""}` }));
  }
  const line = draw("path", { class: "nav-way", d: `M${at(0)} ${y}H${at(most * unit)}` });
  const named = label(words, LEFT, y - 30, { "text-anchor": "start", class: "nav-on-paper" });
  return draw("g", {}, named, line, ...marks);
}

export default { render };
