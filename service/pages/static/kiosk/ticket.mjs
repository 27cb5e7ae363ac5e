// “Ask the counter”: what was told goes there under a short number, which is all that the customer has to say.
import { json } from "../lib/ask.mjs";
import { button, el } from "../lib/dom.mjs";
import { mark } from "../lib/marks.mjs";
import { language, t } from "../lib/words.mjs";

// The part of an answer that leads to the counter. `questions`: [[question, asked]].
export function askCounter(visit, cameFor, questions, words = t("kiosk.more_at_counter")) {
  return el("section", { class: "counter-call" }, el("p", {}, words),
    button(t("kiosk.ask_counter"), () => visit.go(ticketScreen(cameFor, questions)), { class: "next" }));
}

function ticketScreen(cameFor, questions) {
  const key = randomKey();
  const body = { came_for: cameFor, language: language(), questions: questions.map(([question, asked]) => ({ question, asked })) };
  return async (visit) => {
    const { number } = await json("/v1/tickets", { method: "POST", body, key });
    return {
      title: t("kiosk.ticket_title"),
      parts: [el("p", { class: "ticket" }, el("span", { class: "unseen" }, t("kiosk.ticket_number")), el("strong", {}, number)),
        el("p", { class: "line" }, mark("do"), t("kiosk.ticket_says")), el("p", { class: "line" }, mark("note"), t("kiosk.ticket_holds")),
        el("p", { class: "forward" }, button(t("kiosk.done"), visit.done, { class: "next" }))],
    };
  };
}

// Said twice over a bad line, the same key still gets one number.
function randomKey() {
  return [...crypto.getRandomValues(new Uint8Array(16))].map((one) => one.toString(16).padStart(2, "0")).join("");
}
