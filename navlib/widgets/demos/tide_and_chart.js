// @ts-check
// Water over a bottom and under a bridge: what chart and tide table count from, and what is left.

const PER_M = 36;
const DATUM = 492; // where chart datum lies down the drawing
const FLOOR = 580;
const POLE = 128; // where the levels end and the sea begins
const BOAT = 336; // where the boat lies across it
/** @param {number} height metres above chart datum */
const down = (height) => DATUM - PER_M * height;

const BOATS = /** @type {[string, number, number][]} */ ([
  ["kayak", 0.2, 0.9],
  ["launch", 0.6, 2.5],
  ["yacht", 1.4, 8],
]);

/** @param {{model: any, el: HTMLElement}} context */
function render({ model, el: root }) {
  /** @param {string} name */
  const get = (name) => model.get(name);
  const change = changer(model);
  const tenth = (/** @type {number} */ value) => toNearest(value * 10, 1) / 10;
  /** @param {string} name @param {number} low @param {number} high */
  const changed = (name, low, high) => (/** @type {number} */ value, /** @type {boolean} */ done) =>
    change(name, low, high)(tenth(value), done);
  const { levels, clearance } = get("data");
  const hat = levels[0][1];
  const toTide = changed("tide", 0, 5.4);
  const toBottom = changed("dries", -2, 3.4);

  const scene = draw("g", { class: "nav-plain" });
  const surface = riser(say("The water"), 0, 5.4);
  const bottom = riser(say("The bottom"), -2, 3.4);
  const drawing = draw(
    "svg",
    { class: "nav-deep", viewBox: `0 0 640 ${FLOOR}` },
    draw("rect", { class: "nav-sea", width: 640, height: FLOOR }),
    scene,
    surface,
    bottom,
  );

  const boats = oneOf(
    say("Which boat?"),
    [
      ["kayak", say("kayak")],
      ["launch", say("launch")],
      ["yacht", say("yacht")],
    ],
    (name) => {
      const [, draught, mast] = BOATS.find(([one]) => one === name) ?? BOATS[0];
      model.set("draught", draught);
      change("mast")(mast);
    },
  );
  const depth = reading(say("depth of water"));
  const keel = reading(say("under the keel"));
  const air = reading(say("over the mast"));
  const sums = el("ul", { class: "nav-sums" });
  const tide = quantityControl(
    say("Height of tide"),
    { min: 0, max: 5.4, step: 0.1, unit: "m", say: metres },
    toTide,
  );
  const dries = quantityControl(
    say("Bottom: + dries, − charted depth"),
    { min: -2, max: 3.4, step: 0.1, unit: "m", say: bottomWords },
    toBottom,
  );
  const draught = quantityControl(
    say("Draught"),
    { min: 0.1, max: 2, step: 0.1, unit: "m", say: metres },
    changed("draught", 0.1, 2),
  );
  const mast = quantityControl(
    say("Mast above the water"),
    { min: 0.8, max: 11, step: 0.1, unit: "m", say: metres },
    changed("mast", 0.8, 11),
  );
  const { node, sentence } = demoFrame(
    say("Over the bottom, under the bridge"),
    say("A boat in section between the bottom and a bridge, with the levels of the tide"),
    drawing,
    boats.node,
    depth.node,
    keel.node,
    air.node,
    sums,
    ...[tide, dries, draught, mast].map((one) => one.node),
  );

  function show() {
    const [water, ground, draws, reach] = ["tide", "dries", "draught", "mast"].map(get);
    const deep = water - ground;
    const left = deep - draws;
    const room = clearance + (hat - water);
    const spare = room - reach;
    const floats = Math.max(water, ground + draws); // a boat aground stays where its keel stands
    scene.replaceChildren(
      draw("path", {
        class: "nav-sea-water",
        d: `M${POLE} ${down(water)}H638V${FLOOR - 2}H${POLE}Z`,
      }),
      draw("path", { class: "nav-surface", d: `M${POLE} ${down(water)}H638` }),
      draw("path", { class: "nav-ground", d: seaBed(ground) }),
      ...levels.flatMap((/** @type {[string, number]} */ [name, height], /** @type {number} */ n) =>
        level(name, height, n),
      ),
      ...level("CD", 0, levels.length),
      draw("path", { class: "nav-datum", d: `M${POLE} ${DATUM}H638` }),
      bridge(hat + clearance),
      ...printed(hat, clearance),
      boat(floats, draws, reach),
      ...gauge(BOAT + 96, ground, water, metres(deep)),
      ...charted(ground),
      draw("path", {
        class: "nav-strikes",
        d: spare < 0 ? crossAt(BOAT, down(floats + reach)) : "",
      }),
      draw("path", { class: "nav-strikes", d: left < 0 ? crossAt(BOAT, down(ground)) : "" }),
    );
    set(surface, {
      transform: `translate(606 ${down(water)})`,
      "aria-valuenow": decimal(water),
      "aria-valuetext": say("height of tide {height}", { height: metres(water) }),
    });
    set(bottom, {
      transform: `translate(216 ${down(ground)})`,
      "aria-valuenow": decimal(ground),
      "aria-valuetext": bottomWords(ground),
    });
    boats.show(BOATS.find(([, one, other]) => one === draws && other === reach)?.[0]);
    depth.value.textContent = metres(deep);
    keel.value.textContent = metres(left);
    air.value.textContent = metres(spare);
    keel.more.textContent = left < 0 ? say("aground") : "";
    air.more.textContent = spare < 0 ? say("the mast strikes") : "";
    showLines(sums, [
      ground > 0
        ? say("Depth: {tide} − {dries} = {depth}", {
            tide: decimal(water),
            dries: decimal(ground),
            depth: metres(deep),
          })
        : say("Depth: {tide} + {charted} = {depth}", {
            tide: decimal(water),
            charted: decimal(-ground),
            depth: metres(deep),
          }),
      say("Under the keel: {depth} − {draught} = {keel}", {
        depth: decimal(deep),
        draught: decimal(draws),
        keel: metres(left),
      }),
      say("Room now: {clearance} + ({hat} − {tide}) = {room}", {
        clearance: decimal(clearance),
        hat: decimal(hat),
        tide: decimal(water),
        room: metres(room),
      }),
      say("Over the mast: {room} − {mast} = {spare}", {
        room: decimal(room),
        mast: decimal(reach),
        spare: metres(spare),
      }),
    ]);
    tide.show(water);
    dries.show(ground);
    draught.show(draws);
    mast.show(reach);
    sentence.textContent = told(water, ground, draws, left, spare, clearance);
  }

  const scaled = (/** @type {number} */ y) => (DATUM - y) / PER_M;
  rises(surface, drawing, { from: scaled, now: () => get("tide"), step: 0.5, fine: 0.1 }, toTide);
  rises(bottom, drawing, { from: scaled, now: () => get("dries"), step: 0.5, fine: 0.1 }, toBottom);
  const watched = "change:tide change:dries change:draught change:mast";
  model.on(watched, show);
  root.append(node);
  show();
  return () => model.off(watched, show);
}

/** @param {number} ground @returns {string} */
const bottomWords = (ground) =>
  ground > 0
    ? say("dries {height}", { height: metres(ground) })
    : say("charted depth {height}", { height: metres(-ground) });

/** @param {number} water @param {number} ground @param {number} draws
 * @param {number} left @param {number} spare @param {number} clearance */
function told(water, ground, draws, left, spare, clearance) {
  if (left < 0) {
    const wrong = water + Math.abs(ground) - draws;
    return ground > 0 && wrong > 0
      ? say("With the drying height put on you would see {wrong} under the keel, and you are aground.", {
          wrong: metres(wrong),
        })
      : say("Aground: the water must rise {more} before you float.", { more: metres(-left) });
  }
  if (spare < 0) {
    return say("The water must fall {more} before the mast goes under.", { more: metres(-spare) });
  }
  return say(
    "As the water rises, the depth grows and the gap shrinks. The printed {clearance} holds only when the water stands at HAT.",
    { clearance: metres(clearance) },
  );
}

export default { render };
