// What the page says about itself: whether there is a line, what waits, what is old, and whether a newer page is there.
import { onLine, queue } from "../lib/ask.mjs";
import { button, el, fill } from "../lib/dom.mjs";
import { mark } from "../lib/marks.mjs";
import { t } from "../lib/words.mjs";

// One line of news under a name; the same name again replaces it, and null takes it away.
export function news(name, words, ...more) {
  const place = document.getElementById("news");
  place.querySelector(`[data-news="${name}"]`)?.remove();
  if (words) {
    place.append(el("div", { class: "stale news", "data-news": name }, el("span", {}, mark("wait"), words), more,
      button(t("news.close"), (event) => event.target.closest(".news").remove(), { class: "plain" })));
  }
}

export function announceLine() {
  const place = document.getElementById("line");
  if (!place) return;
  const waiting = queue().length;
  const words = onLine() ? t("news.line") : t("news.no_line");
  fill(place, mark(onLine() ? "do" : "wait"), el("span", { class: onLine() && !waiting && "quiet" }, words), waiting ? ` · ${t("news.waiting", { count: waiting })}` : null);
  if (onLine()) news("line", null);
  else news("line", t("news.while_away"));
}

// Registers the service worker once the page is at rest, and offers a newer version when one waits.
export async function announceVersion() {
  if (!("serviceWorker" in navigator)) return;
  const had = navigator.serviceWorker.controller;
  const worker = await navigator.serviceWorker.register("/sw.js").catch(() => null);
  if (!worker) return;
  const offer = () => {
    if (worker.waiting && had) {
      news("version", t("news.newer_page"), button(t("news.load"), () => worker.waiting.postMessage("let the new version in"),
        { class: "plain" }));
    }
  };
  navigator.serviceWorker.addEventListener("controllerchange", () => { if (had) location.reload(); });
  worker.addEventListener("updatefound", () => worker.installing?.addEventListener("statechange", offer));
  offer();
}
