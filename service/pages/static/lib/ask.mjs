// Asks the service. A refusal comes as Problem with its errors; a lost connection as Away, or, for a question that may
// wait, as Held: it is kept on this device and sent as soon as the line is back.
import { large, local } from "./store.mjs";
import { language } from "./words.mjs";

const PATIENCE_MS = 25_000;
const AGAIN_MS = 15_000;
const ASKED_AFRESH = /^\/(v1\/|livez)/; // all else may come from the service worker, which says nothing of the line

export class Problem extends Error {
  constructor(status, told) {
    super(told.detail ?? "");
    this.status = status;
    this.errors = told.errors ?? [];
  }
}
export class Away extends Error {}
export class Held extends Error {}

const listeners = new Set();
let reachable = navigator.onLine;
let rulebook = local.get("rulebook");

// Told of {kind: "line"}, {kind: "queue"} and {kind: "answered", task, told}.
export function listen(hear) {
  listeners.add(hear);
  return () => listeners.delete(hear);
}

function say(news) {
  for (const hear of listeners) hear(news);
}

export function onLine() {
  return reachable;
}

export function newestRulebook() {
  return rulebook;
}

function setLine(now) {
  if (!now) waitForLine();
  if (reachable === now) return;
  reachable = now;
  say({ kind: "line" });
}

// One request; the answer as it came. `body` is sent as JSON unless it is a form, or a file or text with a `type`.
export async function send(path, { method = "GET", body, type, accept = "application/json", key } = {}) {
  const parts = body instanceof FormData;
  const plain = body !== undefined && !type && !parts;
  const headers = { Accept: accept };
  if (body !== undefined && !parts) headers["Content-Type"] = type ?? "application/json";
  if (key) headers["Idempotency-Key"] = key;
  let answer;
  try {
    answer = await fetch(path, { method, headers, body: plain ? JSON.stringify(body) : body, cache: "no-cache",
      signal: AbortSignal.timeout(PATIENCE_MS) });
  } catch {
    setLine(false);
    throw new Away();
  }
  if (ASKED_AFRESH.test(path)) setLine(true);
  if (answer.ok) return answer;
  if ([502, 504].includes(answer.status)) throw new Away();
  const told = await answer.json().catch(() => ({}));
  throw new Problem(answer.status, told);
}

export async function json(path, options) {
  return (await send(path, options)).json();
}

// A question of a task. The answer carries `at`, when it came. Without a line it is held and Held is thrown.
export async function question(path, body, { task }) {
  const asked = { language: language(), ...body };
  const key = asked.keep ? freshKey() : undefined;
  const queued = { task, path, body: asked, key, at: Date.now() };
  try {
    const told = await answered(queued);
    unqueue(task);
    return told;
  } catch (fault) {
    if (!(fault instanceof Away)) throw fault;
    local.set("queue", [...queue().filter((one) => one.task !== task), queued]);
    say({ kind: "queue" });
    throw new Held();
  }
}

// A question that no device can hold while there is no line, such as one with a file; `asked` stands for it later on.
export async function questionWith(form, path, asked, { task }) {
  const told = await json(path, { method: "POST", body: form });
  unqueue(task);
  return keptAnswer(told, task, asked);
}

async function answered({ task, path, body, key }) {
  return keptAnswer(await json(path, { method: "POST", body, key }), task, body);
}

async function keptAnswer(told, task, body) {
  told.at = Date.now();
  told.asked = body;
  rulebook = told.rulebook ?? rulebook;
  local.set("rulebook", rulebook);
  await large.set(`answer.${task}`, told);
  return told;
}

export function queue() {
  return local.get("queue") ?? [];
}

export function unqueue(task) {
  const rest = queue().filter((one) => one.task !== task);
  if (rest.length !== queue().length) {
    local.set("queue", rest);
    say({ kind: "queue" });
  }
}

export function lastAnswer(task) {
  return large.get(`answer.${task}`);
}

export function forgetAnswers() {
  local.drop("queue");
  say({ kind: "queue" });
  return large.drop("answer.");
}

let sending = false;

// Sends what waits, the oldest first; stops at the first that finds no line.
export async function sendWaiting() {
  if (sending) return;
  sending = true;
  try {
    for (const one of queue()) {
      const news = await answered(one).then((told) => ({ told }), (problem) => ({ problem }));
      if (news.problem instanceof Away) break;
      if (!queue().some((other) => other.task === one.task && other.at === one.at)) continue;
      unqueue(one.task);
      say({ kind: "answered", task: one.task, ...news });
    }
  } finally { sending = false; }
}

let waiting = null;

function waitForLine() {
  clearTimeout(waiting);
  waiting = setTimeout(() => json("/livez").then(sendWaiting, () => {}), AGAIN_MS);
}

// Reference data: the newest that can be had, else what was kept, with `at` and `stale`.
export async function reference(path) {
  try {
    const value = await json(path);
    const kept = { value, at: Date.now() };
    await large.set(`reference.${path}`, kept);
    return { ...kept, stale: false };
  } catch (fault) {
    const kept = fault instanceof Away ? await large.get(`reference.${path}`) : null;
    if (!kept) throw fault;
    return { ...kept, stale: true };
  }
}

window.addEventListener("online", () => { setLine(true); sendWaiting(); });
window.addEventListener("offline", () => setLine(false));
document.addEventListener("visibilitychange", () => { if (!document.hidden && queue().length) sendWaiting(); });

// A key of its own for one thing to store. Browsers keep `randomUUID` from pages without TLS, and a store may have none.
export function freshKey() {
  return [...crypto.getRandomValues(new Uint8Array(16))].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}
