// @ts-check
// Pencil circles, drawn with compasses: a point, and an opening that is kept when they are carried.

/** Where one is: its middle and its radius in mm of sheet.
 * @typedef {{x: number, y: number, r: number, label: string}} CircleLie */

const RADIUS_MM = 15;
const WIDEST_RADIUS_MM = 120;

/**
 * @param {Top} top
 * @returns {Instrument & {press: (keyed: boolean) => void, rubbing: () => any[]}}
 */
function pencilCircle(top) {
  const all = pencilled(
    top,
    "nav-circles",
    say("Pencil circles"),
    (_, drawn, held) => {
      const stroke = draw("circle", { class: "nav-pencil" });
      const words = pencilWords(4);
      /** Where on the rim the pencil stands, degrees from up. */
      let at = 90;
      const point = pointPart(
        top,
        say("Point of the compasses: carry them, the opening kept"),
        () => [drawn.x, drawn.y],
        (spot) => {
          [drawn.x, drawn.y] = onSheet(spot, top.size);
          show();
        },
        { focus: held },
        hubMark(),
      );
      const rim = part(
        top,
        say("Pencil of the compasses: open or close"),
        {
          drag: (x, y) => {
            open(span([drawn.x, drawn.y], [x, y]));
            at = towards(drawn.x, drawn.y, x, y);
            show();
          },
          keys: (x, y, small) => open(drawn.r + (x + y) * stride(small)),
        },
        { role: "group", "aria-roledescription": say("movable point"), focus: held },
        inPixels(hit(), draw("circle", { class: "nav-end", r: 7 })),
      );
      /** @param {number} radius */
      function open(radius) {
        drawn.r = within(radius, 1, WIDEST_RADIUS_MM);
        show();
      }
      function show() {
        set(stroke, { cx: drawn.x, cy: drawn.y, r: drawn.r });
        placeAt(point, drawn.x, drawn.y);
        placeAt(rim, ...along(drawn.x, drawn.y, at, drawn.r));
        words.textContent = drawn.label;
        const [x, y] = along(drawn.x, drawn.y, 45, drawn.r);
        set(words, { x: x + 1.5, y: y - 1 });
      }
      return { node: draw("g", {}, stroke, words, point, rim), show };
    },
    {
      label: say("Write beside the circle"),
      rub: say("Rub the circle out"),
      how: say(
        "Press where the point of the compasses stands, and draw out to the rim. Open them on a scale first, if you like: carried by the point they keep their opening.",
      ),
      spoken: (drawn) =>
        say("Pencil circle {label}: middle {spot}, open {wide} mm.", {
          label: drawn.label,
          spot: spokenSpot([drawn.x, drawn.y]),
          wide: Math.round(drawn.r),
        }),
    },
  );

  /** @param {boolean} keyed */
  function press(keyed) {
    if (keyed) {
      const [x, y] = middleOf(top.seen());
      const circle = all.add({ x, y, r: RADIUS_MM, label: "" });
      top.moved();
      top.focus(circle.node.querySelector(".nav-handle"));
      return;
    }
    drawnOut(
      top,
      all,
      ([x, y]) => ({ x, y, r: 0 }),
      (drawn, from, to) => {
        drawn.r = Math.min(span(from, to), WIDEST_RADIUS_MM);
      },
      (drawn) => drawn.r,
    );
  }

  return { ...all, press };
}
