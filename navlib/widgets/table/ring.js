// @ts-check
// A ring of 360°, as on a protractor.

/**
 * The path of ticks on a ring, every `step` degrees except at multiples of `but`.
 * @param {number} step @param {number} but @param {number} inner @param {number} outer
 */
function ticks(step, but, inner, outer) {
  let path = "";
  for (let degrees = 0; degrees < 360; degrees += step) {
    if (but && degrees % but === 0) continue;
    const from = along(0, 0, degrees, inner).map((n) => n.toFixed(3));
    const to = along(0, 0, degrees, outer).map((n) => n.toFixed(3));
    path += `M${from}L${to}`;
  }
  return path;
}

/**
 * The ring, centred on (0, 0): ticks each degree, figures each ten, unless told otherwise.
 * @param {number} radius
 * @param {[number, number, number]} [steps]  degrees between the shortest, middle and longest ticks
 * @param {{every: number, size: number}} [written]  degrees between figures, and their height
 * @returns {any}
 */
function ring(radius, [short, middle, long] = [1, 5, 10], written = { every: 10, size: radius * 0.067 }) {
  const { every, size } = written;
  const ringNode = draw(
    "g",
    { class: "nav-ring", "font-size": size, "stroke-width": radius * 0.006 },
    draw("circle", { class: "nav-ring-band", r: radius * 0.89, "stroke-width": radius * 0.22 }),
    draw("circle", { class: "nav-ring-line", r: radius }),
    draw("circle", { class: "nav-ring-line", r: radius * 0.78 }),
    draw("path", { class: "nav-ring-line", d: ticks(short, middle, radius * 0.955, radius) }),
    draw("path", { class: "nav-ring-line", d: ticks(middle, long, radius * 0.93, radius) }),
    draw("path", {
      class: "nav-ring-line",
      "stroke-width": radius * 0.009,
      d: ticks(long, 0, radius * 0.905, radius),
    }),
  );
  for (let degrees = 0; degrees < 360; degrees += every) {
    const text = draw("text", {
      transform: `rotate(${degrees}) translate(0 ${-radius * 0.83})`,
      "text-anchor": "middle",
      class: degrees % 90 === 0 ? "nav-ring-quarter" : null,
    });
    text.textContent = figures(degrees);
    ringNode.append(text);
  }
  return ringNode;
}
