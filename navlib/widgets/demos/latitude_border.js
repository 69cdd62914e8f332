// @ts-check
// Dividers with a kept opening on the borders of a tall Mercator chart.

const LONG = 120; // miles of the leg
const EACH = 10; // minutes between two entries of the table
const [FRAME_LEFT, FRAME_RIGHT, FRAME_TOP, FRAME_BOTTOM] = [118, 616, 20, 516];
const MIDDLE = 370; // across, where the leg lies
const BORDER = 18; // breadth of the border

/** @param {number} value degrees @returns {string} 58°30′N */
function north(value) {
  const minutes = toNearest((value % 1) * 60, 1);
  return `${Math.floor(value)}°${minutes ? `${String(minutes).padStart(2, "0")}′` : ""}N`;
}

/**
 * The scale of a Mercator chart's side, from its table of heights in minutes of longitude.
 * @param {number[]} parts by every tenth minute of latitude @param {number} south degrees
 */
function mercatorSide(parts, south) {
  /** @param {number} lat @returns {number} */
  const height = (lat) => {
    const place = within(((lat - south) * 60) / EACH, 0, parts.length - 1);
    const n = Math.min(Math.floor(place), parts.length - 2);
    return parts[n] + (parts[n + 1] - parts[n]) * (place - n);
  };
  /** @param {number} at @returns {number} */
  const latitude = (at) => {
    const n = within(parts.findIndex((part) => part > at) - 1, 0, parts.length - 2);
    return south + ((n + (at - parts[n]) / (parts[n + 1] - parts[n])) * EACH) / 60;
  };
  return { height, latitude, most: parts[parts.length - 1] };
}

/** @param {{model: any, el: HTMLElement}} context */
function render({ model, el: root }) {
  /** @param {string} name */
  const get = (name) => model.get(name);
  const south = get("south");
  const side = mercatorSide(get("parts"), south);
  const unit = (FRAME_BOTTOM - FRAME_TOP) / side.most;
  /** @param {number} lat */
  const y = (lat) => FRAME_BOTTOM - side.height(lat) * unit;
  /** @param {string} name @returns {(value: number, done: boolean) => void} */
  const change = (name) => (value, done) => {
    model.set(name, within(toNearest(value, 0.5), 52, 60));
    if (done) model.save_changes();
  };
  /** How wide the dividers stand, in minutes of longitude: set to the leg, where the leg is. */
  const opening = () => side.height(get("leg") + LONG / 120) - side.height(get("leg") - LONG / 120);
  /** What dividers read at the side. @param {number} level */
  function read(level) {
    const [middle, half] = [side.height(level), opening() / 2];
    return (side.latitude(middle + half) - side.latitude(middle - half)) * 60;
  }

  const leg = draw("g", {});
  const pair = dividersDrawn(64);
  const handle = pulled(
    "nav-upward",
    say("The dividers at the side"),
    52,
    60,
    draw("rect", { class: "nav-reach", x: -26, width: 110 }),
    pair.node,
  );
  const onEdge = dividersDrawn(64);
  const covered = draw("path", { class: "nav-covered" });
  const count = label("", 0, 0, { class: "nav-strong nav-on-paper", "text-anchor": "start" });
  const drawing = drawingOf(560, chart(y, unit, south), leg, covered, onEdge.node, count, handle);

  const says = reading("");
  const truth = reading(say("the leg in truth"));
  const sums = el("ul", { class: "nav-sums" });
  const where = oneOf(
    say("Where do you read?"),
    [
      [false, say("Read at the side")],
      [true, say("at the bottom edge")],
    ],
    (edge) => {
      model.set("edge", edge);
      model.save_changes();
    },
  );
  const degrees = { min: 52, max: 60, step: 0.5, unit: "°N", say: north };
  const level = quantityControl(say("Height of the dividers"), degrees, change("level"));
  const at = quantityControl(say("Latitude of the leg"), degrees, change("leg"));
  const { node, sentence } = demoFrame(
    say("The border of a chart"),
    say(
      "A tall Mercator chart: a leg, a border of latitude at the side and of longitude below, and " +
        "dividers on it",
    ),
    drawing,
    says.node,
    truth.node,
    sums,
    where.node,
    level.node,
    at.node,
  );

  function show() {
    const edge = get("edge");
    const wide = opening() * unit;
    const middle = y(get("leg"));
    const [ax, ay] = [MIDDLE - wide * 0.48, middle + wide * 0.14];
    const [bx, by] = [MIDDLE + wide * 0.48, middle - wide * 0.14];
    leg.replaceChildren(
      draw("path", { class: "nav-not-here", d: `M${FRAME_LEFT} ${middle}H${MIDDLE}` }),
      draw("path", { class: "nav-run", d: `M${ax} ${ay}L${bx} ${by}` }),
      label("A", ax - 16, ay + 12, { class: "nav-strong" }),
      label("B", bx + 16, by + 6, { class: "nav-strong" }),
    );
    const minutes = edge ? opening() : read(get("level"));
    set(handle, {
      transform: `translate(${FRAME_LEFT} ${y(get("level"))})`,
      "aria-valuenow": get("level"),
      "aria-valuetext": say("at {level}: {minutes} minutes", {
        level: north(get("level")),
        minutes: tenths(minutes),
      }),
    });
    handle.style.display = edge ? "none" : "block";
    onEdge.node.style.display = edge ? "" : "none";
    const zero = y(get("level"));
    const [up, down] = [zero - wide / 2, zero + wide / 2];
    pair.stand([0, up - zero], [0, down - zero]);
    set(handle.firstChild, { y: up - zero - 10, height: down - up + 20 });
    onEdge.stand([MIDDLE - wide / 2, FRAME_BOTTOM], [MIDDLE + wide / 2, FRAME_BOTTOM]);
    set(covered, {
      d: edge
        ? `M${MIDDLE - wide / 2} ${FRAME_BOTTOM + BORDER / 2}h${wide}`
        : `M${FRAME_LEFT - BORDER / 2} ${up}V${down}`,
    });
    set(count, edge ? { x: MIDDLE + 24, y: FRAME_BOTTOM - 56 } : { x: FRAME_LEFT + 72, y: zero - 14 });
    count.textContent = `${toNearest(minutes, 1)}′`;
    says.node.firstChild.textContent = edge
      ? say("minutes on the bottom edge")
      : say("minutes at the side, at {level}", { level: north(get("level")) });
    says.value.textContent = tenths(minutes);
    truth.value.textContent = miles(LONG);
    showLines(sums, [
      minutes > LONG + 0.05 || minutes < LONG - 0.05
        ? say("{percent} % {way}", {
            percent: toNearest(Math.abs(minutes / LONG - 1) * 1000, 1) / 10,
            way: minutes > LONG ? say("too many") : say("too few"),
          })
        : say("Every minute is a mile: right."),
    ]);
    where.show(edge);
    level.node.hidden = edge;
    level.show(get("level"));
    at.show(get("leg"));
    sentence.textContent = told(edge, get("level") - get("leg"));
  }

  rises(
    handle,
    drawing,
    {
      from: (place) => side.latitude((FRAME_BOTTOM - place) / unit),
      place: () => y(get("level")),
      now: () => get("level"),
      step: 0.5,
      fine: 0.5,
    },
    change("level"),
  );
  const watched = "change:leg change:level change:edge";
  model.on(watched, show);
  root.append(node);
  show();
  return () => model.off(watched, show);
}

/** @param {boolean} edge @param {number} off degrees from the leg, north positive */
function told(edge, off) {
  if (edge) {
    return say(
      "Below are minutes of longitude. They are narrow, so many go in: not one of them is a mile here.",
    );
  }
  if (off === 0) {
    return say("The dividers stand level with the leg, so each minute between their points is a mile.");
  }
  return off > 0
    ? say("Further north the minutes are drawn longer, so fewer go in. Go back to the height of the leg.")
    : say("Further south the minutes are drawn shorter, so more go in. Go back to the height of the leg.");
}

/**
 * The chart's frame: black and white degrees at the side and below, names at every second.
 * @param {(lat: number) => number} y @param {number} unit to a minute of longitude
 * @param {number} south
 */
function chart(y, unit, south) {
  const parts = [
    draw("rect", {
      class: "nav-page",
      x: FRAME_LEFT,
      y: FRAME_TOP,
      width: FRAME_RIGHT - FRAME_LEFT,
      height: FRAME_BOTTOM - FRAME_TOP,
    }),
  ];
  /**
   * @param {boolean} dark @param {number} x @param {number} top @param {number} width
   * @param {number} height
   */
  const block = (dark, x, top, width, height) =>
    draw("rect", { class: dark ? "nav-dark" : "nav-light", x, y: top, width, height });
  /** @param {number} at @param {number} height */
  const named = (at, height) =>
    label(north(at), FRAME_LEFT - BORDER - 8, height, { "text-anchor": "end" });
  let lat = south;
  for (; y(lat) > FRAME_TOP + 1; lat++) {
    parts.push(block(lat % 2 === 0, FRAME_LEFT - BORDER, y(lat + 1), BORDER, y(lat) - y(lat + 1)));
    if (lat % 2 === 0) parts.push(named(lat, y(lat) + 8));
  }
  parts.push(named(Math.round(lat), FRAME_TOP + 10));
  const wide = 60 * unit;
  let net = "";
  for (let at = south + 2; at < lat; at += 2) net += `M${FRAME_LEFT} ${y(at)}H${FRAME_RIGHT}`;
  for (let x = FRAME_LEFT + 4 * wide; x < FRAME_RIGHT; x += 4 * wide) {
    net += `M${x} ${FRAME_TOP}V${FRAME_BOTTOM}`;
  }
  parts.push(draw("path", { class: "nav-net", d: net }));
  for (let n = 0; FRAME_LEFT + (n + 1) * wide <= FRAME_RIGHT + 1; n++) {
    parts.push(block(n % 2 === 0, FRAME_LEFT + n * wide, FRAME_BOTTOM, wide, BORDER));
  }
  return draw("g", {}, ...parts);
}

export default { render };
