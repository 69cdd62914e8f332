// @ts-check
// Pencil marks: a small cross at a place.

/**
 * @param {Top} top
 * @returns {Instrument & {press: (keyed: boolean) => void, rubbing: () => any[]}}
 */
function pencilMark(top) {
  const all = pencilled(
    top,
    "nav-marks",
    say("Pencil marks"),
    (_, drawn, held) => {
      const words = pencilWords(4.5);
      const node = pointPart(
        top,
        say("Pencil mark: move it"),
        () => [drawn.x, drawn.y],
        (spot) => {
          [drawn.x, drawn.y] = onSheet(spot, top.size);
          show();
        },
        { focus: held },
        inPixels(hit(), draw("circle", { class: "nav-ghost", r: 12 })),
        draw("path", { class: "nav-pencil", d: "M-1.9 -1.9L1.9 1.9M-1.9 1.9L1.9 -1.9" }),
        words,
      );
      function show() {
        placeAt(node, drawn.x, drawn.y);
        words.textContent = drawn.label;
        words.setAttribute("x", "2.6");
        words.setAttribute("y", "-1.4");
      }
      return { node: draw("g", {}, node), show };
    },
    {
      label: say("Write beside the mark"),
      rub: say("Rub the mark out"),
      how: say("Press where the mark belongs. It can be moved afterwards, and a word written beside it."),
      spoken: (drawn) =>
        say("Pencil mark {label}: {spot}.", {
          label: drawn.label,
          spot: spokenSpot([drawn.x, drawn.y]),
        }),
    },
  );

  /** @param {Spot} spot */
  function put(spot) {
    const [x, y] = onSheet(spot, top.size);
    const thing = all.add({ x, y, label: "" });
    top.moved();
    top.focus(thing.node.querySelector(".nav-handle"));
  }

  /** @param {boolean} keyed */
  function press(keyed) {
    if (keyed) return put(middleOf(top.seen()));
    /** @type {Spot} */
    let at = [0, 0];
    const take = (/** @type {number} */ x, /** @type {number} */ y) => {
      at = [x, y];
    };
    top.space.arm({
      down: take,
      move: take,
      up() {
        top.space.arm(null);
        put(at);
      },
      stop() {},
    });
  }

  return { ...all, press };
}
