// @ts-check
// A minute of latitude is nearly the same everywhere; one of longitude shrinks towards the pole.

const [GLOBE_X, GLOBE_Y, RADIUS] = [226, 226, 196];
const SEGMENT = 16; // degrees between the two meridians that are drawn
const HIGHEST = 85;
const SEA_MILE = 1852; // metres
const [BAR_X, BAR_WIDE] = [452, 160];

/** @param {number} degrees */
const radians = (degrees) => (degrees * Math.PI) / 180;

/**
 * A place on the globe as it is drawn.
 * @param {number} lat @param {number} lon from the middle @returns {Point}
 */
const onGlobe = (lat, lon) => [
  GLOBE_X + RADIUS * Math.cos(radians(lat)) * Math.sin(radians(lon)),
  GLOBE_Y - RADIUS * Math.sin(radians(lat)),
];

/** @param {number} lon @param {number} from @param {number} to @returns {Point[]} */
const meridian = (lon, from, to) =>
  Array.from({ length: 46 }, (_, n) => onGlobe(from + ((to - from) * n) / 45, lon));

/** @param {{model: any, el: HTMLElement}} context */
function render({ model, el: root }) {
  /** @type {[number, number][]} metres of a minute of latitude and of longitude, by degree */
  const table = model.get("minutes");
  const now = () => model.get("latitude");
  /** @param {number} value @param {boolean} done */
  function take(value, done) {
    model.set("latitude", within(toNearest(value, 1), 0, HIGHEST));
    if (done) model.save_changes();
  }

  const across = draw("g", {});
  const bars = draw("g", {});
  const handle = pulled(
    "nav-upward",
    say("Latitude on the globe"),
    0,
    HIGHEST,
    draw("circle", { class: "nav-reach", r: 34 }),
    draw("circle", { class: "nav-place", r: 15 }),
    draw("path", { class: "nav-bow", fill: "none", d: "M-5 -5L0 -10L5 -5M-5 5L0 10L5 5" }),
  );
  const drawing = drawingOf(452, globe(), across, bars, handle);

  const lat = reading(say("a minute of latitude"));
  const lon = reading(say("a minute of longitude"));
  const sums = el("ul", { class: "nav-sums" });
  const latitude = quantityControl(
    say("Latitude"),
    { min: 0, max: HIGHEST, step: 1, unit: "°", say: (value) => say("{value} degrees", { value }) },
    take,
  );
  const { node, sentence } = demoFrame(
    say("Two sorts of minute"),
    say(
      "A globe with two meridians that meet at the pole; bars of a minute each way, a mile and a " +
        "kilometre",
    ),
    drawing,
    lat.node,
    lon.node,
    sums,
    latitude.node,
  );

  function show() {
    const at = now();
    const [up, along] = table[at];
    const [west, east] = [onGlobe(at, -SEGMENT), onGlobe(at, SEGMENT)];
    across.replaceChildren(
      draw("path", {
        class: "nav-circle",
        d: `M${onGlobe(at, -90)[0]} ${west[1]}H${onGlobe(at, 90)[0]}`,
      }),
      draw("path", { class: "nav-run", d: `M${west[0]} ${west[1]}H${east[0]}` }),
    );
    const mark = onGlobe(at, 90);
    set(handle, {
      transform: `translate(${mark[0]} ${mark[1]})`,
      "aria-valuenow": at,
      "aria-valuetext": say("{at} degrees: a minute of longitude is {metres} metres", {
        at,
        metres: toNearest(along, 1),
      }),
    });
    bars.replaceChildren(
      ...[
        [say("1′ of latitude"), up, "second"],
        [say("1′ of longitude"), along, "not-mile"],
        [say("1 nautical mile"), SEA_MILE, "first"],
        [say("1 kilometre"), 1000, "first"],
      ].flatMap(([words, metres, kind], n) =>
        measure(String(words), Number(metres), String(kind), 44 + n * 104),
      ),
    );
    lat.value.textContent = `${toNearest(up, 1)} m`;
    lon.value.textContent = `${toNearest(along, 1)} m`;
    lon.more.textContent = `= ${hundredths(along / SEA_MILE)} NM`;
    showLines(sums, [
      say("1 NM × cos {at}° = {miles} NM", { at, miles: hundredths(Math.cos(radians(at))) }),
    ]);
    latitude.show(at);
    const times = along / up;
    sentence.textContent =
      at < 6
        ? say("Near the equator the two are alike. Move north: which of them shrinks?")
        : say(
            "At {at}° the meridians are closer together. Take a minute of longitude for a mile, and " +
              "a leg comes out {times} times as long as it is.",
            { at, times: hundredths(1 / times) },
          );
  }

  rises(
    handle,
    drawing,
    {
      from: (y) => (Math.asin(within((GLOBE_Y - y) / RADIUS, 0, 1)) * 180) / Math.PI,
      place: () => onGlobe(now(), 90)[1],
      now,
      step: 5,
      fine: 1,
    },
    take,
  );
  model.on("change:latitude", show);
  root.append(node);
  show();
  return () => model.off("change:latitude", show);
}

/** The globe seen from over the equator: every 20th parallel, two meridians, the slice between. */
function globe() {
  const parallels = [-60, -40, -20, 0, 20, 40, 60].map(
    (at) => `M${onGlobe(at, -90)[0]} ${onGlobe(at, 0)[1]}H${onGlobe(at, 90)[0]}`,
  );
  const [west, east] = [meridian(-SEGMENT, 90, -90), meridian(SEGMENT, -90, 90)];
  return draw(
    "g",
    {},
    draw("circle", { class: "nav-globe", cx: GLOBE_X, cy: GLOBE_Y, r: RADIUS }),
    draw("path", { class: "nav-segment", d: `${through([...west, ...east])}Z` }),
    draw("path", { class: "nav-circle", d: parallels.join("") }),
    draw("path", { class: "nav-shore", d: through(west) + through(east) }),
    label(say("pole"), GLOBE_X, GLOBE_Y - RADIUS - 8, { class: "nav-fine" }),
    label(say("equator"), GLOBE_X - RADIUS + 12, GLOBE_Y + 24, {
      class: "nav-fine",
      "text-anchor": "start",
    }),
  );
}

/** @param {string} words @param {number} metres @param {string} kind @param {number} y */
function measure(words, metres, kind, y) {
  const wide = (metres / SEA_MILE) * BAR_WIDE;
  const shape =
    kind === "not-mile"
      ? draw("path", { class: "nav-run", d: `M${BAR_X} ${y + 24}H${BAR_X + wide}` })
      : draw("rect", { class: `nav-bar nav-bar-${kind}`, x: BAR_X, y: y + 12, width: wide, height: 24 });
  return [
    label(words, BAR_X, y, { "text-anchor": "start", class: "nav-fine nav-strong" }),
    shape,
    label(`${toNearest(metres, 1)} m`, BAR_X, y + 60, { "text-anchor": "start", class: "nav-fine" }),
  ];
}

export default { render };
