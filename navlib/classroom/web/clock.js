// @ts-check
// The session's clock, as the instructor set it.

/** What is left; `ends` is null while it stands still.
 * @typedef {{ends: string | null, left_s: number}} Clock */

/** @param {Clock} clock @param {number} now  milliseconds by the class server's clock */
const leftSeconds = ({ ends, left_s }, now) =>
  Math.max(0, ends ? (Date.parse(ends) - now) / 1000 : left_s);

/** @param {number} seconds @returns {string} minutes and seconds: 7:05 */
function minutesWords(seconds) {
  const whole = Math.ceil(seconds);
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, "0")}`;
}

/** A clock that goes by itself; `ahead` is how far the server's is ahead of this device's, ms. */
function clockView() {
  const figure = el("span", { class: "nav-clock-figure" });
  const words = el("span", { class: "nav-clock-words" });
  const node = el("div", { class: "nav-clock", role: "timer", hidden: true }, figure, words);
  /** @type {Clock | null} */
  let clock = null;
  let ahead = 0;

  function show() {
    node.hidden = !clock;
    if (!clock) return;
    const left = leftSeconds(clock, Date.now() + ahead);
    figure.textContent = minutesWords(left);
    words.textContent = !left ? say("Time is up") : clock.ends ? say("left") : say("stopped");
    node.classList.toggle("nav-clock-up", !left);
  }

  const ticking = window.setInterval(show, 500);
  return {
    node,
    /** @param {Clock | null} next @param {number} by */
    set(next, by) {
      [clock, ahead] = [next, by];
      show();
    },
    close: () => window.clearInterval(ticking),
  };
}
