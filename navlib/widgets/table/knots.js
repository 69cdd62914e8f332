// @ts-check
// A cord with knots: tied as far apart as a mile of the scale is long, and counted along a way.

/** @param {Top} top @returns {Instrument} */
const knottedCord = (top) => cord(top, true);

const knottedHow = () =>
  say(
    "Lay it on one mile of the scale and tie knots that far apart. Then lay it along your way and count them; the last part is by eye.",
  );

/**
 * Where along a way one is after so many mm, and which way it runs there.
 * @param {Spot[]} points @param {number} far @returns {[number, number, number] | null}
 */
function onWay(points, far) {
  for (const [n, to] of points.slice(1).entries()) {
    const leg = span(points[n], to);
    if (far <= leg) return [...along(...points[n], towards(...points[n], ...to), far), towards(...points[n], ...to)];
    far -= leg;
  }
  return null;
}

/**
 * Show the knots on a way, the first one at so many mm from its beginning.
 * @param {any} knots @param {Spot[]} way @param {number} every  mm between them, 0 for none
 */
function tied(knots, way, every) {
  const far = lengthOf(way) + 1e-6;
  const count = every ? Math.floor(far / every) : 0;
  const at = Array.from({ length: count }, (_, n) => onWay(way, Math.min((n + 1) * every, far - 2e-6)));
  knots.replaceChildren(
    ...at.flatMap((one) => {
      if (!one) return [];
      const knot = draw("path", { class: "nav-knot", d: "M-1.8 0H1.8M-1 -.9L1 .9M-1 .9L1 -.9" });
      placeAt(knot, ...one);
      return [knot];
    }),
  );
}
