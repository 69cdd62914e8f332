// @ts-check
// A soft protractor: a disc of clear film, coarsely marked, with a thread through its middle.

/** An eye reads half-way between its ticks of 5°, and no finer. */
const SOFT_READS = 2.5;

/** @param {Top} top @returns {Instrument} */
function softProtractor(top) {
  const disc = roundProtractor(top, {
    style: "nav-soft",
    name: say("Soft protractor"),
    radius: () => 27,
    reads: SOFT_READS,
    ring: (radius) => ring(radius, [5, 10, 30], { every: 30, size: radius * 0.1 }),
    spoken: (said) =>
      say("Soft protractor: middle {spot}, N turned to about {turn}, the thread at about {arm}.", said),
    how: say(
      "Drag the middle onto the point, turn N to the sheet’s north, not to your own up, and swing the thread. The ring has a tick each 5°: read to the nearest half of one.",
    ),
  });
  const take = () => {
    const [x, y] = middleOf(top.seen());
    disc.lay({ ...disc.lie(), x, y });
  };
  take();
  return { ...disc, take };
}
