// A customer comes from the kiosk with a number: what they told there is put into the page, and asked again here, where
// the shelf may be seen.
import { Away, Problem, json } from "../lib/ask.mjs";
import { el } from "../lib/dom.mjs";
import { t } from "../lib/words.mjs";

export const id = "ticket";
export const title = "task.ticket";
const TASK_OF = { "variety-suggestions": "varieties", "pruning-plans": "pruning", "thinning-plans": "thinning",
  "season-plans": "year", diagnoses: "trouble", "treatment-pointers": "remedy" };

export function open(place, context) {
  const fault = el("strong", { class: "error", id: "ticket-error", role: "alert" });
  const input = el("input", { id: "ticket-number", inputmode: "numeric", autocomplete: "off", maxlength: "8", "aria-describedby": "ticket-hint ticket-error" });
  const say = (words) => {
    fault.textContent = words;
    input.toggleAttribute("aria-invalid", Boolean(words));
    if (words) input.focus();
  };
  const send = async (event) => {
    event.preventDefault();
    const number = input.value.trim().replace(/^#/, "");
    if (!/^\d+$/.test(number)) { say(t("ticket.not_a_number")); return; }
    say("");
    try {
      context.take(pageOf(await json(`/v1/tickets/${number}`)));
    } catch (problem) {
      if (problem instanceof Away) say(t("news.away"));
      else if (problem instanceof Problem) say(problem.status === 404 ? t("ticket.unknown", { number }) : problem.message);
      else throw problem;
    }
  };
  place.append(el("h2", {}, t("task.ticket")), el("form", { novalidate: true, class: "ticket", on: { submit: send } },
    el("div", { class: "field" }, el("label", { for: "ticket-number" }, t("ticket.number")), input,
      el("small", { id: "ticket-hint" }, t("ticket.hint")), fault),
    el("p", { class: "send" }, el("button", { type: "submit" }, t("ticket.open")))));
  place.closest(".result")?.removeAttribute("hidden");
  input.focus();
}

// The page as if staff had typed what the customer told: {site, tasks, first}; the first question is asked at once.
export function pageOf({ number, questions }) {
  const site = {};
  const tasks = {};
  for (const { question, asked } of questions) {
    const { site: place = {}, ...rest } = asked;
    Object.assign(site, typed({ site: place }));
    tasks[TASK_OF[question]] = typed(rest);
  }
  return { number, site, tasks, first: TASK_OF[questions[0].question] };
}

// A body by the pointers of its values, as forms keep what was typed: texts, and lists of texts.
export function typed(value, pointer = "") {
  if (value === null || value === undefined) return {};
  if (Array.isArray(value) && value.every((one) => one === null || typeof one !== "object")) return { [pointer]: value.map(String) };
  if (typeof value !== "object") return { [pointer]: String(value) };
  return Object.assign({}, ...Object.entries(value).map(([name, inner]) => typed(inner, `${pointer}/${name}`)));
}
