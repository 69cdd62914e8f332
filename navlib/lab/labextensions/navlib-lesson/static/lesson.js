/* Brings a lesson alive: runs its code cells when it opens and each time its kernel starts anew.
 *
 * Loaded by JupyterLab as a prebuilt extension and written by hand, with no build step: the object
 * at the end is the container that JupyterLab asks for the plugin. Only a notebook whose metadata
 * says `navlib: {lesson: NAME}` is a lesson; no other notebook is ever run.
 */
(() => {
  const PLUGIN = "navlib-lesson";
  const SLOW_MS = 30000;
  const GONE_MS = 8000;
  const BACK_MS = 10000;

  /* Translations, which the server puts into the page if there are any. */
  const page = document.getElementById("jupyter-config-data");
  const TEXTS = JSON.parse(JSON.parse(page?.textContent || "{}").navlibTexts || "{}");
  const say = (text) => TEXTS[text] ?? text;

  const SAYS = {
    waking: say("The lesson is waking up…"),
    slow: say(
      "The lesson is still waking up. On an older computer this can take a minute. " +
        "If nothing changes, start it again.",
    ),
    broken: say(
      "Part of this lesson did not work. Start it again; if that does not help, show this page " +
        "to whoever runs the course. Your answers are kept.",
    ),
    stopped: say(
      "The lesson stopped and could not wake up. Start it again; if that does not help, close " +
        "this page, stop the program in its own window with Ctrl-C, and start it once more. " +
        "Your answers are kept.",
    ),
    cut: say(
      "Something was deleted from this lesson on this page. The lesson itself is whole: load the " +
        "page again and all is back. Your answers are kept.",
    ),
    gone: say(
      "The program behind this page has stopped. Start it again the way you started it before. " +
        "Your answers are kept.",
    ),
  };

  const style = document.createElement("link");
  style.rel = "stylesheet";
  style.href = new URL("lesson.css", document.currentScript.src).href;
  document.head.append(style);

  const COURSE = new URL("course.js", document.currentScript.src).href;

  let shared; // the modules that JupyterLab offers to extensions

  async function offered(name) {
    const [version] = Object.values(shared[name]);
    return (await version.get())();
  }

  const pause = (ms) => new Promise((resolve) => setTimeout(resolve, ms));

  const running = (cell) => cell.model?.executionState === "running"; // a closed cell has no model

  function failed({ model: { executionCount, outputs, sharedModel } }) {
    const types = Array.from({ length: outputs.length }, (_, i) => outputs.get(i).type);
    const ran = executionCount !== null || !sharedModel.getSource().trim();
    return !ran || types.includes("error");
  }

  function button(text, act) {
    const made = document.createElement("button");
    made.type = "button";
    made.textContent = text;
    made.addEventListener("click", act);
    return made;
  }

  /* The one message a lesson shows, and what state it is in (also as data for styles and tests). */
  class Note {
    constructor(panel, again) {
      this.panel = panel;
      this.text = document.createElement("p");
      this.again = button(say("Start the lesson again"), again);
      this.whole = button(say("Load the page again"), () => location.reload());
      this.goOn = button(say("Go on as it is"), () => (this.node.hidden = true));
      this.node = document.createElement("div");
      this.node.className = "nav-note";
      this.node.setAttribute("role", "status");
      this.node.append(this.text, this.again, this.whole, this.goOn);
      panel.node.append(this.node);
    }

    show(state) {
      this.panel.node.dataset.navState = state;
      this.text.textContent = SAYS[state] ?? "";
      this.node.hidden = !(state in SAYS);
      this.again.hidden = ["waking", "gone", "cut"].includes(state);
      this.whole.hidden = state !== "cut";
      this.goOn.hidden = !["broken", "cut"].includes(state);
    }

    get state() {
      return this.panel.node.dataset.navState;
    }
  }

  class Lesson {
    constructor(panel, actions) {
      this.panel = panel;
      this.actions = actions;
      this.context = panel.sessionContext;
      this.turn = 0; // counts wakings, so that an overtaken one ends quietly
      this.fell = false; // whether the kernel died under a lesson that was alive
      this.note = new Note(panel, () => this.again());
      panel.addClass("nav-lesson");
      panel.toolbar.hide();
      this.leaveNoTrace();
      this.keepKeys();
      this.keepWhole();
      this.context.kernelChanged.connect((_, change) => change.newValue && this.wake());
      this.context.sessionChanged.connect((_, change) => change.newValue || this.stop("stopped"));
      this.context.statusChanged.connect((_, status) => this.heed(status));
      this.context.connectionStatusChanged.connect((_, status) => this.heedConnection(status));
      this.note.show("waking");
      if (this.context.session?.kernel) this.wake();
    }

    async wake() {
      if (this.panel.isDisposed) return;
      const turn = ++this.turn;
      const overtaken = () => turn !== this.turn || this.panel.isDisposed;
      this.note.show("waking");
      const slow = setTimeout(() => overtaken() || this.note.show("slow"), SLOW_MS);
      const cells = this.panel.content.widgets.filter((cell) => cell.model.type === "code");
      for (const cell of cells) {
        const ran = running(cell) && (await this.ended(cell, overtaken)); // by the menu
        if (!ran && !overtaken()) await this.run(cell);
        await this.ended(cell, overtaken);
        if (overtaken()) break;
      }
      clearTimeout(slow);
      if (!overtaken()) this.note.show(this.cut ? "cut" : cells.some(failed) ? "broken" : "alive");
    }

    /* Whether a cell that someone else runs came to its end. A cell that was running when its kernel
     * was restarted never does: the new kernel stands idle and has not heard of it. */
    async ended(cell, overtaken) {
      for (let idle = 0; running(cell); await pause(100)) {
        idle = this.context.session?.kernel?.status === "idle" ? idle + 1 : 0;
        if (idle > 10 || overtaken()) return false;
      }
      return true;
    }

    /* One cell at a time: a cell that fails does not take the ones after it along. */
    async run(cell) {
      try {
        await this.actions.runCells(this.panel.content, [cell], this.context);
      } catch (problem) {
        console.error(problem);
      }
    }

    stop(state) {
      this.turn++;
      if (!this.panel.isDisposed) this.note.show(state);
    }

    /* A kernel that died while the lesson stood still wakes it when it is back; one that died of
     * the lesson's own cells does not, or it would die for ever. */
    heed(status) {
      if (status === "restarting") this.stop("waking"); // the old kernel's cells end here
      if (status === "dead") this.stop("stopped");
      if (status === "autorestarting") {
        this.fell = this.note.state === "alive";
        this.stop(this.fell ? "waking" : "stopped");
      }
      if (status === "idle" && this.fell) {
        this.fell = false;
        this.wake();
      }
    }

    /* A moment without an answer is nothing; after a longer one the program is taken for gone. */
    heedConnection(status) {
      clearTimeout(this.missing);
      const { state } = this.note;
      if (status === "connecting" && state === "alive") {
        this.missing = setTimeout(() => this.stop("gone"), GONE_MS);
      }
      if (status === "connected" && state === "gone") this.note.show("alive");
    }

    /* After a kernel died, the server puts a fresh one in its place, or has done so already. What is
     * sent to it before it is there is lost. */
    async again() {
      const { state } = this.note;
      const kernel = this.context.session?.kernel;
      this.note.show("waking");
      if (!kernel) return this.context.startKernel();
      if (state !== "stopped") return this.context.restartKernel();
      const back = () => ["idle", "dead"].includes(kernel.status);
      for (let waited = 0; !back() && waited < BACK_MS; waited += 100) await pause(100);
      return this.wake();
    }

    /* The server does not let a lesson's file be changed; so nothing is unsaved either, and no
     * one is asked about it. A copy saved under another name can be saved as usual. */
    leaveNoTrace() {
      const { model } = this.panel;
      const forget = () => this.panel.context.canSave || this.panel.isDisposed || (model.dirty = false);
      model.stateChanged.connect((_, change) => {
        if (change.name === "dirty" && change.newValue) Promise.resolve().then(forget);
      });
      forget();
    }

    /* A menu can still delete a cell; what is deleted is missed on this page alone. */
    keepWhole() {
      this.panel.content.model.cells.changed.connect((_, change) => {
        this.cut ||= change.type === "remove" && change.oldValues.length > 0;
        if (this.cut) Promise.resolve().then(() => this.stop("cut"));
      });
    }

    /* Plain keys and double clicks read, scroll and work the instruments; they do not edit. */
    keepKeys() {
      const { node } = this.panel.content;
      const keys = (event) => {
        if (!node.contains(event.target) || event.target.closest(".cm-editor")) return;
        const plain = !(event.ctrlKey || event.metaKey || event.altKey);
        event.target.toggleAttribute("data-lm-suppress-shortcuts", plain);
      };
      const clicks = (event) => {
        if (event.target.closest(".jp-MarkdownOutput")) event.stopPropagation();
      };
      window.addEventListener("keydown", keys, true);
      node.addEventListener("dblclick", clicks, true);
      this.panel.disposed.connect(() => window.removeEventListener("keydown", keys, true));
    }
  }

  async function plugin() {
    const { INotebookTracker, NotebookActions } = await offered("@jupyterlab/notebook");
    const { Course } = await import(COURSE);
    const wake = (panel) => new Lesson(panel, NotebookActions);
    return {
      id: `${PLUGIN}:wake`,
      description: "Runs the cells of a navlib lesson when it opens, and leads from one to another.",
      autoStart: true,
      requires: [INotebookTracker],
      activate: (app, tracker) => void new Course(app, tracker, wake),
    };
  }

  globalThis._JUPYTERLAB ??= {};
  globalThis._JUPYTERLAB[PLUGIN] = {
    init: (scope) => {
      shared = scope;
    },
    get: async () => {
      const exports = { __esModule: true, default: await plugin() };
      return () => exports;
    },
  };
})();
