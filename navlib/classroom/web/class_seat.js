// @ts-check
// A seat on the class server: looks what is asked, and hands in, through a network that comes and goes.

const LOOK_MS = 2000;
const HIDDEN_MS = 15_000;
const FAILING_MS = 15_000;
const JOIN_MS = 6000;
const TOO_FAST_MS = 4000;

/** @param {number} ms @returns {number} about as long, so that a class does not ask all at once */
const about = (ms) => ms * (0.8 + 0.4 * Math.random());

/** @returns {string} a new key, which sorts by when it was made */
function newKey() {
  const [random] = crypto.getRandomValues(new Uint32Array(1));
  return `${Date.now().toString(36).padStart(9, "0")}-${random.toString(36).padStart(7, "0")}`;
}

/**
 * @param {{name: string, shown: string, pass: string}} who
 * @returns {Seat & {ask: ReturnType<typeof lineTo>, forgotten: () => void}}
 */
function classSeat({ name, shown, pass }) {
  const kept = keptHere(name);
  const ask = lineTo(pass);
  /** @type {Taking} */
  let taking = {
    shown,
    seat: null,
    session: null,
    question: null,
    picture: null,
    waiting: [],
    refused: [],
    line: "fine",
    ahead: 0,
    keeps: kept.lasting,
    comes: true,
    left: false,
  };
  /** @type {(() => void)[]} */
  const watching = [];
  let tag = "";
  let failed = 0;
  let joined = -Infinity;
  let looking = false;
  let sending = false;
  let next = 0;
  let drawn = 0;

  /** @param {Partial<Taking>} more */
  function change(more) {
    taking = { ...taking, ...more };
    for (const tell of watching) tell();
  }

  /** Note whether the class answered, and return whether it did. @param {Reply} reply */
  function heard({ status, ahead }) {
    const fine = status > 0 && status < 500 && ![408, 429].includes(status);
    failed = fine ? 0 : failed + 1;
    const line = status === 401 || status === 403 ? "out" : fine || status === 429 ? "fine" : "down";
    const drifted = ahead !== null && Math.abs(ahead - taking.ahead) > 1500;
    if (line !== taking.line || drifted) change({ line, ahead: ahead ?? taking.ahead });
    return fine && line === "fine";
  }

  // Looking -------------------------------------------------------------------------------------

  async function look() {
    if (looking) return;
    looking = true;
    window.clearTimeout(next);
    try {
      if (!taking.left) await lookOnce();
      await send();
    } finally {
      looking = false;
      const pause = failed ? Math.min(LOOK_MS * 2 ** (failed - 1), FAILING_MS) : LOOK_MS;
      window.clearTimeout(next);
      next = window.setTimeout(look, about(document.hidden ? Math.max(pause, HIDDEN_MS) : pause));
    }
  }

  async function lookOnce() {
    if ((!taking.session || taking.session.ended) && Date.now() - joined > JOIN_MS) await join();
    const reply = await ask("GET", `now?since=${tag}`);
    if (!heard(reply)) return;
    if (reply.status === 200) {
      tag = reply.content.tag;
      showNow(reply.content);
    } else if (reply.status === 404) change({ session: null, seat: null, question: null });
    await fetchPicture();
  }

  /** Take a seat in the session that runs now; where none does, it is asked for again. */
  async function join() {
    joined = Date.now();
    heard(await ask("POST", "join", {}));
  }

  /** @param {{session: any, seat: number, question: Asked | null}} now */
  function showNow({ session, seat, question }) {
    const { id, title, ended, stage } = session;
    const same = question?.id === taking.question?.id;
    if (id !== taking.session?.id) forgetOthers(id);
    change({
      seat,
      session: { id, title, ended, clock: stage?.clock ?? null },
      question,
      picture: same ? taking.picture : null,
    });
  }

  /** Let go of what was begun in sessions that are over. @param {number} session */
  function forgetOthers(session) {
    for (const start of ["draft/", "lies/"]) {
      const others = kept.names(start).filter((one) => !one.startsWith(`${start}${session}/`));
      for (const one of others) kept.put(one, null);
    }
  }

  async function fetchPicture() {
    const { question, picture } = taking;
    if (!question?.has_picture || (picture && drawn === question.id)) return;
    const reply = await ask("GET", `questions/${question.id}/picture`);
    if (!heard(reply) || reply.status !== 200 || taking.question?.id !== question.id) return;
    drawn = question.id;
    change({ picture: reply.content.picture });
  }

  // Handing in ----------------------------------------------------------------------------------

  function showKept() {
    const all = (/** @type {string} */ start) => kept.names(start).map((one) => kept.get(one)).filter(Boolean);
    change({ waiting: all("waiting/"), refused: all("refused/") });
  }

  /** Send what waits, in turn; what the class has not taken stays. */
  async function send() {
    if (sending) return;
    sending = true;
    try {
      for (let [first] = taking.waiting; first; [first] = taking.waiting) {
        const reply = await ask("POST", "answers", first);
        if (reply.status === 429) {
          await new Promise((resolve) => window.setTimeout(resolve, about(TOO_FAST_MS)));
          continue;
        }
        if (!heard(reply)) return;
        took(first, reply);
      }
    } finally {
      sending = false;
    }
  }

  /** @param {Sent} sent @param {Reply} reply  of a class that took the answer, or never will */
  function took(sent, { status, content }) {
    const good = status === 200 || status === 201;
    if (!good) kept.put(`refused/${sent.key}`, { ...sent, says: content.error });
    kept.put(`waiting/${sent.key}`, null);
    const { question } = taking;
    if (good && question?.id === sent.question) {
      const { at, counted, parts } = content;
      const tries = (question.mine?.tries ?? 0) + 1;
      change({ question: { ...question, mine: { answers: sent.answers, at, tries, counted, parts } } });
      tag = ""; // what the class says of it counts, the next time it is looked at
    }
    showKept();
  }

  const wake = () => void look();
  window.addEventListener("online", wake);
  document.addEventListener("visibilitychange", () => document.hidden || wake());
  window.addEventListener("storage", showKept); // another page of the same learner's
  window.addEventListener("offline", () => change({ line: "down" }));
  showKept();
  wake();

  return {
    kept,
    ask,
    now: () => taking,
    watch: (tell) => void watching.push(tell),
    handIn(question, answers, lies) {
      const sent = { key: newKey(), question, answers, lies, given: new Date().toISOString() };
      kept.put(`waiting/${sent.key}`, sent);
      showKept();
      void send();
    },
    drop(key) {
      kept.put(`refused/${key}`, null);
      showKept();
    },
    comeIn: () => window.location.reload(),
    joinAgain() {
      joined = -Infinity;
      change({ left: false });
      wake();
    },
    /** What was kept of this learner is gone, there and here. */
    forgotten() {
      for (const one of kept.names("")) kept.put(one, null);
      tag = "";
      change({ left: true, session: null, seat: null, question: null, picture: null });
      showKept();
    },
  };
}
