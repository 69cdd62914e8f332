// @ts-check
// Every instrument of the table, by name.

/** Each instrument: how it is made, and what its button says. `pencil` ones are drawn with.
 * @type {Record<string, {make: (top: Top) => Instrument, name: string, take: string, away?: string}>} */
const TOOLS = {
  protractor: {
    make: protractor,
    name: say("Protractor"),
    take: say("Take the protractor"),
    away: say("Put the protractor away"),
  },
  "parallel rule": {
    make: parallelRule,
    name: say("Parallel rule"),
    take: say("Take the parallel rule"),
    away: say("Put the parallel rule away"),
  },
  dividers: {
    make: dividers,
    name: say("Dividers"),
    take: say("Take the dividers"),
    away: say("Put the dividers away"),
  },
  cord: {
    make: cord,
    name: say("Cord"),
    take: say("Take the cord"),
    away: say("Put the cord away"),
  },
  ruler: {
    make: ruler,
    name: say("Ruler"),
    take: say("Take the ruler"),
    away: say("Put the ruler away"),
  },
  romer: {
    make: romer,
    name: say("Romer"),
    take: say("Take the romer"),
    away: say("Put the romer away"),
  },
  "soft protractor": {
    make: softProtractor,
    name: say("Soft protractor"),
    take: say("Take the soft protractor"),
    away: say("Put the soft protractor away"),
  },
  "knotted cord": {
    make: knottedCord,
    name: say("Cord with knots"),
    take: say("Take the cord with knots"),
    away: say("Put the cord with knots away"),
  },
  thumb: {
    make: thumb,
    name: say("Thumb"),
    take: say("Lay the thumb on"),
    away: say("Take the thumb off"),
  },
  "pencil line": { make: pencilLine, name: say("Pencil line"), take: say("Draw a pencil line") },
  "pencil mark": { make: pencilMark, name: say("Pencil mark"), take: say("Make a pencil mark") },
  "pencil circle": { make: pencilCircle, name: say("Pencil circle"), take: say("Draw a pencil circle") },
};
