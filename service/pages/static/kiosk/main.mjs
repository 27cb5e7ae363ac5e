// The kiosk: three ways in, few words, large targets. The page has no way out of itself and asks for no personal data; a
// visit that is left starts over.
import { button, fill } from "../lib/dom.mjs";
import { language, preferred, speak, t } from "../lib/words.mjs";
import { chooseFruit } from "./choose.mjs";
import { watchIdle } from "./idle.mjs";
import { way } from "./pictures.mjs";
import { tiles } from "./tiles.mjs";
import { whichTree } from "./tree.mjs";
import { whichSickTree } from "./trouble.mjs";
import { openVisit } from "./visit.mjs";

const WAYS = { choose: chooseFruit, my_tree: whichTree, trouble: whichSickTree };
const bar = document.getElementById("bar");
const first = preferred();

function start() {
  return { title: t("kiosk.title"), parts: tiles(Object.keys(WAYS).map((name) =>
    ({ value: name, picture: way[name](), word: t(`kiosk.${name}`) })), (name) => visit.go(WAYS[name]()), { kind: "few ways" }) };
}

function showBar() {
  const other = language() === "en" ? "es" : "en";
  fill(bar, visit.atStart() ? null : [button(t("kiosk.back"), visit.back, { class: "plain" }), button(t("kiosk.restart"), visit.restart, { class: "plain" })],
    button(t("shell.other_language"), () => turn(other), { class: "plain turn", lang: other }));
  bar.setAttribute("aria-label", t("kiosk.bar"));
  document.title = t("kiosk.title");
}

async function turn(wanted) {
  const spoke = await speak(wanted).then(() => true, () => false);
  if (spoke) await visit.again();
}

// Nothing is remembered: the next customer finds the language of the device, and a newer page where there is one.
async function nextCustomer() {
  newer?.waiting?.postMessage("let the new version in");
  if (language() !== first) await speak(first).catch(() => {});
  await visit.restart();
}

let newer = null;

async function keepPage() {
  if (!("serviceWorker" in navigator)) return;
  const had = navigator.serviceWorker.controller;
  navigator.serviceWorker.addEventListener("controllerchange", () => { if (had) location.reload(); });
  newer = await navigator.serviceWorker.register("/sw.js").catch(() => null);
}

// No way out: the button of the device goes back a screen, and nothing opens a menu or drags away.
function closeDoors() {
  history.pushState("kiosk", "");
  addEventListener("popstate", () => { history.pushState("kiosk", ""); visit.back(); });
  for (const way of ["contextmenu", "dragstart", "drop", "dragover"]) document.addEventListener(way, (event) => event.preventDefault());
}

const visit = openVisit(document.getElementById("content"), start, { changed: showBar, done: () => nextCustomer() });
await speak(first);
await visit.again();
closeDoors();
watchIdle({ seconds: Number(document.body.dataset.idle), busy: () => !visit.atStart() || language() !== first, reset: nextCustomer });
keepPage();
