// @ts-check
// What a learner sees in a session, whoever brings it: the class server or a file.

/** An answer on its way. @typedef {{key: string, question: number, answers: Record<string, string>,
 *   lies: Record<string, any>, given: string}} Sent */
/** @typedef {Sent & {says: string}} Refused */
/** What a learner sees now. `ahead` is how far the class's clock is ahead of this device's, in ms;
 * `line` is "fine", "down" without a network, "out" for one who is not logged in any more; `comes`
 * tells whether questions come by themselves, `left` that one has had all deleted.
 * @typedef {{shown: string, seat: number | null, session: null | {id: number, title: string,
 *   clock: Clock | null, ended: boolean}, question: Asked | null, picture: Picture | null,
 *   waiting: Sent[], refused: Refused[], line: string, ahead: number, keeps: boolean,
 *   comes: boolean, left: boolean}} Taking */
/** Where a learner sits: tells what is to be seen, and hands in.
 * @typedef {{now: () => Taking, watch: (tell: () => void) => void, kept: Kept,
 *   handIn: (question: number, answers: Record<string, string>, lies: Record<string, any>) => void,
 *   drop?: (key: string) => void, comeIn?: () => void, joinAgain?: () => void}} Seat */

/** @param {Taking} taking @returns {string} what to wait for, where there is no question */
function waitWords(taking) {
  const { left, session, question, line } = taking;
  if (left) return say("All that was kept here of your answers is deleted.");
  if (session?.ended) return say("This session has ended. Thank you for taking part.");
  if (session && !question)
    return taking.comes
      ? say("You are in. The first question comes here by itself.")
      : say("Nothing is asked in this session yet.");
  if (session) return "";
  if (line === "down") return say("The class cannot be reached just now. This page tries again by itself.");
  return say("No session is running yet. Stay on this page: it begins here by itself.");
}

/**
 * @param {HTMLElement} root @param {Seat} seat @param {HTMLElement[]} below  what stands at the foot
 * @returns {() => void} ends it
 */
function takePart(root, seat, ...below) {
  const head = headView(seat);
  const asked = askedView(seat);
  const again = button(say("Join again"), () => seat.joinAgain?.(), { hidden: true });
  const words = el("p", {});
  const wait = el("section", { class: "nav nav-class-wait", role: "status" }, words, again);
  const live = el("div", { class: "nav-live", role: "status", "aria-live": "polite" });
  const caution = el("p", { class: "nav-caution" }, say("For training, not for navigation. All waters here are invented."));
  let before = "";

  /** Say aloud what the eye sees happen. @param {Asked | null} question */
  function tell(question) {
    const now = question ? `${question.id} ${question.state}` : "";
    if (now === before) return;
    const [id] = before.split(" ");
    before = now;
    if (!question) return;
    if (String(question.id) !== id) live.textContent = say("A new question: {title}.", { title: question.title });
    else if (question.state === "closed") live.textContent = say("The question is closed.");
    else if (question.state === "revealed") live.textContent = say("The solution is shown.");
  }

  function show() {
    const taking = seat.now();
    head.show(taking);
    asked.show();
    const told = waitWords(taking);
    if (words.textContent !== told) words.textContent = told;
    wait.hidden = !told;
    again.hidden = !taking.left;
    tell(taking.question);
  }

  root.replaceChildren(head.node, wait, asked.node, ...below, caution, live);
  seat.watch(show);
  show();
  return () => {
    head.close();
    asked.close();
  };
}
