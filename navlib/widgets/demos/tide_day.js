// @ts-check
// One day's tide as a drawing and in words: its turns, its tidal hours by the twelfths.

const LEFT = 52;
const RIGHT = 612;
const FOOT = 372;
const HIGH = 300; // from the foot to the top of the scale
const across = scale(LEFT, RIGHT, DAY);

/** @typedef {{port: string, date: string, ahead: number, turns: Turn[],
 *   curve: [number, number][]}} OneDay */

/** @param {OneDay} day @param {number} minutes @returns {[Turn, Turn]} the tide that runs then */
function tideAt({ turns }, minutes) {
  const next = turns.findIndex(([time]) => time > minutes);
  return [turns[next - 1], turns[next]];
}

/**
 * When the water lies below a level, by the twelfths: from, to; as far as the turns go.
 * @param {OneDay} day @param {number} level @returns {[number, number][]}
 */
function below({ turns }, level) {
  /** @type {[number, number][]} */
  const spans = [];
  let from = turns[0][1] < level ? turns[0][0] : NaN;
  for (let n = 1; n < turns.length; n++) {
    const at = passesAt(turns[n - 1], turns[n], level);
    if (Number.isNaN(at)) continue;
    if (turns[n][2]) spans.push([from, at]);
    from = turns[n][2] ? NaN : at;
  }
  if (!Number.isNaN(from)) spans.push([from, turns[turns.length - 1][0]]);
  return spans;
}

/** The six tidal hours of a tide, with their twelfths.
 * @param {Turn} from @param {Turn} to @param {(height: number) => number} up */
function hoursOfTide([start, first], [end, last], up) {
  return [1, 2, 3, 3, 2, 1].flatMap((twelfths, n) => {
    const [a, b] = [n, n + 1].map((hour) => start + ((end - start) * hour) / 6);
    const [x, width] = [across(a), across(b) - across(a)];
    if (x < LEFT - 1 || x + width > RIGHT + 1) return [];
    const [top, low] = [n, n + 1].map((hour) => up(first + (last - first) * SHARES[hour]));
    return [
      draw("rect", { class: "nav-hour", x, width, y: 36, height: FOOT - 36 }),
      draw("rect", {
        class: "nav-bar nav-bar-first",
        x,
        width,
        y: Math.min(top, low),
        height: Math.abs(low - top),
      }),
      label(String(twelfths), x + width / 2, 60, { class: "nav-strong" }),
    ];
  });
}

/** The straight line between two turns, and the corners of the twelfths.
 * @param {Turn} from @param {Turn} to @param {(height: number) => number} up */
function steps([start, first], [end, last], up) {
  const corners = SHARES.map((share, n) => [
    across(start + ((end - start) * n) / 6),
    up(first + (last - first) * share),
  ]).filter(([x]) => x >= LEFT - 1 && x <= RIGHT + 1);
  return [
    draw("path", {
      class: "nav-not-here",
      d: `M${across(start)} ${up(first)}L${across(end)} ${up(last)}`,
    }),
    ...corners.map(([cx, cy]) => draw("circle", { class: "nav-dot", cx, cy, r: 5 })),
  ];
}

/** The names of the day's turns.
 * @param {Turn[]} turns @param {(height: number) => number} up */
function marks(turns, up) {
  return turns
    .filter(([minutes]) => minutes >= 0 && minutes <= DAY)
    .map(([minutes, height, high]) =>
      label(decimal(height), within(across(minutes), LEFT + 24, RIGHT - 24), up(height) - (high ? 14 : 18), {
        class: "nav-strong nav-on-paper",
      }),
    );
}

/** A span that is dry, rounded to the safe side; a day's end is no end of it.
 * @param {[number, number]} span minutes from midnight UT @param {number} ahead of UT */
function spanWords([from, to], ahead) {
  const words = {
    from: clock(Math.ceil(from - 1e-6) + ahead),
    to: clock(Math.floor(to + 1e-6) + ahead),
    zone: ahead ? "BST" : "UT",
  };
  if (from <= 0 && to >= DAY) return say("all day");
  if (from <= 0) return say("until {to} {zone}", words);
  return to >= DAY ? say("from {from} {zone} on", words) : say("{from} to {to} {zone}", words);
}

/** @param {Turn} from @param {Turn} to @param {number} level @returns {string[]} */
function passing(from, to, level) {
  const at = passesAt(from, to, level);
  if (Number.isNaN(at) || at < 0 || at > DAY) return [];
  const part = Math.abs(level - from[1]);
  return [
    say("{first}, {way} {part} of {range}: {time} UT", {
      first: turnWords(from),
      way: to[2] ? say("up") : say("down"),
      part: metres(part),
      range: metres(Math.abs(to[1] - from[1])),
      time: clock(to[2] ? Math.floor(at + 1e-6) : Math.ceil(at - 1e-6)),
    }),
  ];
}

/** @param {Turn} from @param {Turn} to @param {number} minutes @param {number} height
 * @param {number} straight @param {boolean} mixed */
function told(from, to, minutes, height, straight, mixed) {
  const sixty = Math.min((minutes - from[0]) / HOUR / 6, 1);
  const byClock = from[1] + (to[1] - from[1]) * inStep(sixty, SIXTHS, SHARES);
  if (mixed && Math.abs(byClock - height) >= 0.05) {
    return say(
      "This tide lasts {long}. If you take six hours of 60 minutes, you get {wrong}. The two high waters of the day are not alike.",
      { long: duration(to[0] - from[0]), wrong: metres(byClock) },
    );
  }
  const off = Math.abs(straight - height);
  if (off < 0.05) return say("Near the turns and half way the straight line is right. Between them it is not.");
  return straight > height === Boolean(to[2])
    ? say("The tide is still slow here. An even {way} would have {off} too much behind it.", {
        way: to[2] ? say("rise") : say("fall"),
        off: metres(off),
      })
    : say("The fast hours are behind you. An even {way} would be {off} short.", {
        way: to[2] ? say("rise") : say("fall"),
        off: metres(off),
      });
}

/** @param {[number, number][]} spans @param {Turn[]} turns @param {number} level */
function toldDry(spans, turns, level) {
  if (!spans.length) {
    const lowest = Math.min(...turns.map(([, height]) => height));
    return say("The lowest water is {low}, so a height of {level} stays covered all day.", {
      low: metres(lowest),
      level: metres(level),
    });
  }
  const today = turns.filter(([minutes, , high]) => high && minutes >= 0 && minutes < DAY);
  const covered = today.filter(([, height]) => height > level).length;
  if (covered < today.length) {
    return say("Only {count} of {all} high waters of this day covers what dries {level}.", {
      count: covered,
      all: today.length,
      level: metres(level),
    });
  }
  return say("Dry only while the water stands below {level}. The sea closes the way long before high water.", {
    level: metres(level),
  });
}
