// @ts-check
// Pencil lines between two ends.

/** How near an edge the pencil must begin and end to be guided by it, mm. */
const GUIDED_MM = 2;
const LINE_MM = 30;

/**
 * A spot moved onto the edge that it and another spot lie along, if there is one.
 * @param {Spot} from @param {Spot} to @param {Edge[]} edges @returns {[Spot, Spot]}
 */
function guided(from, to, edges) {
  for (const [p, q] of edges) {
    const way = [(q[0] - p[0]) / span(p, q), (q[1] - p[1]) / span(p, q)];
    /** @param {Spot} spot @returns {Spot} */
    const onto = (spot) => {
      const out = within((spot[0] - p[0]) * way[0] + (spot[1] - p[1]) * way[1], 0, span(p, q));
      return [p[0] + way[0] * out, p[1] + way[1] * out];
    };
    const [a, b] = [onto(from), onto(to)];
    if (span(a, from) < GUIDED_MM && span(b, to) < GUIDED_MM && span(a, b) > GUIDED_MM) return [a, b];
  }
  return [from, to];
}

/**
 * @param {Top} top
 * @returns {Instrument & {press: (keyed: boolean) => void, rubbing: () => any[]}}
 */
function pencilLine(top) {
  const all = pencilled(
    top,
    "nav-lines",
    say("Pencil lines"),
    (_, drawn, held) => {
      const stroke = draw("line", { class: "nav-pencil" });
      const thick = draw("line", { class: "nav-pencil-hit" });
      const words = pencilWords(4);
      set(words, { y: -1.3, "text-anchor": "middle" });
      /** @param {1 | 2} n @param {string} name */
      const end = (n, name) =>
        pointPart(
          top,
          name,
          () => [drawn[`x${n}`], drawn[`y${n}`]],
          (spot) => {
            [drawn[`x${n}`], drawn[`y${n}`]] = onSheet(spot, top.size);
            show();
          },
          { focus: held },
          inPixels(hit(), draw("circle", { class: "nav-end", r: 7 })),
        );
      const ends = [end(1, say("Beginning of the line")), end(2, say("End of the line"))];
      let begun = { ...drawn };
      /** @param {number} x @param {number} y @param {any} from */
      const shift = (x, y, from) => {
        const { width, height } = top.size;
        const dx = within(x, -Math.min(from.x1, from.x2), width - Math.max(from.x1, from.x2));
        const dy = within(y, -Math.min(from.y1, from.y2), height - Math.max(from.y1, from.y2));
        for (const n of [1, 2]) {
          drawn[`x${n}`] = from[`x${n}`] + dx;
          drawn[`y${n}`] = from[`y${n}`] + dy;
        }
        show();
      };
      const whole = part(
        top,
        say("The line: shift it"),
        {
          start: () => {
            begun = { ...drawn };
          },
          drag: (x, y, fromX, fromY) => shift(x - fromX, y - fromY, begun),
          keys: (x, y, small) => shift(x * stride(small), -y * stride(small), { ...drawn }),
        },
        { role: "group", focus: held },
        thick,
        stroke,
      );
      function show() {
        for (const line of [stroke, thick]) {
          for (const [at, value] of Object.entries(drawn)) {
            if (at !== "label") line.setAttribute(at, String(value));
          }
        }
        placeAt(ends[0], drawn.x1, drawn.y1);
        placeAt(ends[1], drawn.x2, drawn.y2);
        words.textContent = drawn.label;
        // Along the line as on paper, and never upside down.
        const lean = signed(towards(drawn.x1, drawn.y1, drawn.x2, drawn.y2) - 90);
        const upright = Math.abs(lean) > 90 ? signed(lean + 180) : lean;
        placeAt(words, (drawn.x1 + drawn.x2) / 2, (drawn.y1 + drawn.y2) / 2, upright);
      }
      return { node: draw("g", {}, whole, words, ...ends), show };
    },
    {
      label: say("Write beside the line"),
      rub: say("Rub the line out"),
      how: say(
        "Press where the line begins, draw, and let go where it ends. Along a ruler, a rule or the protractor’s arm the edge guides the pencil.",
      ),
      spoken: (drawn) =>
        say("Pencil line {label}: from {start} to {end}.", {
          label: drawn.label,
          start: spokenSpot([drawn.x1, drawn.y1]),
          end: spokenSpot([drawn.x2, drawn.y2]),
        }),
    },
  );

  /** @param {boolean} keyed  no hand is on the sheet: a line is laid in the middle of what is seen */
  function press(keyed) {
    if (keyed) {
      const [x, y] = middleOf(top.seen());
      const half = Math.min(LINE_MM, (top.seen().right - top.seen().left) / 3) / 2;
      const line = all.add({ x1: x - half, y1: y, x2: x + half, y2: y, label: "" });
      top.moved();
      top.focus(line.node.querySelectorAll(".nav-handle")[1]);
      return;
    }
    drawnOut(
      top,
      all,
      ([x, y]) => ({ x1: x, y1: y, x2: x, y2: y }),
      (drawn, from, to) => {
        const [[x1, y1], [x2, y2]] = guided(from, to, top.edges());
        Object.assign(drawn, { x1, y1, x2, y2 });
      },
      ({ x1, y1, x2, y2 }) => span([x1, y1], [x2, y2]),
    );
  }

  return { ...all, press };
}
