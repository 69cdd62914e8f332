// @ts-check
// The line from this page to the class service: one request, and what came of it.

const PATIENCE_MS = 10_000;

/** `status` is 0 where nobody of the class answered, `ahead` how far its clock is ahead of ours, ms.
 * @typedef {{status: number, content: any, ahead: number | null}} Reply */

/**
 * @param {string} pass  what tells the service that a request comes from our own page
 * @returns {(method: string, path: string, content?: any) => Promise<Reply>}
 */
function lineTo(pass) {
  return async (method, path, content) => {
    const giveUp = new AbortController();
    const timer = window.setTimeout(() => giveUp.abort(), PATIENCE_MS);
    /** @type {Record<string, string>} */
    const headers = { "X-Class-Pass": pass };
    if (content !== undefined) headers["Content-Type"] = "application/json";
    try {
      const reply = await fetch(`api/${path}`, {
        method,
        headers,
        body: content === undefined ? undefined : JSON.stringify(content),
        redirect: "manual", // somebody else's page is no answer
        cache: "no-store",
        signal: giveUp.signal,
      });
      const date = Date.parse(reply.headers.get("Date") ?? "");
      const ahead = Number.isNaN(date) ? null : date - Date.now();
      if (reply.status === 304) return { status: 304, content: null, ahead };
      return { status: reply.status, content: await reply.json(), ahead };
    } catch {
      return { status: 0, content: null, ahead: null };
    } finally {
      window.clearTimeout(timer);
    }
  };
}
