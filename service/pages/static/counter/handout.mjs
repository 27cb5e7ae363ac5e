// Something to take home: the answers of this visit on one page under an address that only the customer gets, with a
// code for their phone, a PDF and their dates. It is made by the service, expires, and holds nothing that was typed.
import { Away, Problem, freshKey, json, lastAnswer } from "../lib/ask.mjs";
import { button, el, fill } from "../lib/dom.mjs";
import { mark, verdict } from "../lib/marks.mjs";
import { dayText, language, t } from "../lib/words.mjs";

export const id = "handout";
export const title = "task.handout";
const NOUNS = { varieties: "variety-suggestions", compare: "variety-suggestions", thinning: "thinning-plans", pruning: "pruning-plans",
  year: "season-plans", trouble: "diagnoses", remedy: "treatment-pointers", list: "planting-lists" };

export async function open(place, context) {
  const wanted = Object.keys(NOUNS).filter((task) => context.page.answered[task]);
  const answers = await Promise.all(wanted.map(async (task) => [task, await lastAnswer(task)]));
  const there = answers.filter(([, told]) => told?.answer);
  const heading = el("h2", {}, t(title));
  if (!there.length) { fill(place, heading, verdict("unknown", t("handout.none"))); return; }
  const state = el("span", { role: "status" });
  const fault = el("p", { class: "error", role: "alert" });
  const made = el("div", { tabindex: "-1" });
  const form = el("form", { novalidate: true, on: { submit: (event) => { event.preventDefault(); make(form, there, { state, fault, made }); } } },
    el("fieldset", { class: "field choices" }, el("legend", {}, t("handout.which")), there.map(([task, told]) => choice(task, told))),
    fault, el("p", { class: "send" }, el("button", { type: "submit" }, t("handout.make")), state));
  fill(place, heading, el("p", {}, t("handout.lead")), form, made);
}

function choice(task, { answer }) {
  const about = [answer.name, answer.crop_name].filter(Boolean).join(", ");
  return el("label", {}, el("input", { type: "checkbox", value: task, checked: true }), `${t(`task.${task}`)}${about ? ` (${about})` : ""}`);
}

async function make(form, there, { state, fault, made }) {
  const tasks = [...form.querySelectorAll("input:checked")].map((box) => box.value);
  fill(made);
  fault.textContent = tasks.length ? "" : t("handout.choose");
  if (!tasks.length) return;
  state.textContent = t("handout.making");
  const questions = there.filter(([task]) => tasks.includes(task)).map(([task, told]) => ({ question: NOUNS[task], asked: plain(told.asked) }));
  try {
    const told = await json("/v1/hand-outs", { method: "POST", body: { questions, language: language() }, key: freshKey() });
    fill(made, shown(told));
    made.focus({ preventScroll: true });
    made.scrollIntoView({ block: "start" });
  } catch (problem) {
    if (problem instanceof Problem) fault.textContent = [problem.message, ...problem.errors.map(({ detail }) => detail)].join(" ");
    else if (problem instanceof Away) fault.textContent = t("handout.away");
    else throw problem;
  }
  state.textContent = "";
}

function plain(asked) {
  return Object.fromEntries(Object.entries(asked).filter(([name]) => name !== "keep" && name !== "language"));
}

function shown(told) {
  const open = { target: "_blank", rel: "noopener" };
  return el("section", { class: "tag do hand-out" }, el("h3", {}, mark("do"), t("handout.scan")),
    el("img", { class: "code", src: told.code, alt: t("handout.scan"), width: 240, height: 240 }),
    el("p", {}, el("a", { href: told.page, ...open }, told.link)),
    el("p", { class: "send ways" }, el("a", { href: told.page, ...open }, t("handout.open")), el("a", { href: told.pdf, ...open }, t("handout.pdf")),
      told.calendar && el("a", { href: told.calendar, download: "fruit-trees.ics" }, t("handout.calendar"))),
    el("p", {}, mark("wait"), t("handout.until", { day: dayText(told.expires_at.slice(0, 10)) })));
}
