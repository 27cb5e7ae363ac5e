// The desk: one customer, their place, what they came for, the question and its answer. What is typed survives a
// reload; an answer stays until the next customer.
import { Away, Held, Problem, forgetAnswers, lastAnswer, listen, queue, sendWaiting, unqueue } from "../lib/ask.mjs";
import { button, el, fill } from "../lib/dom.mjs";
import { clearErrors, countFolded, loadFields, putBack, read, showErrors, tidy, typedOf } from "../lib/forms.mjs";
import { mark } from "../lib/marks.mjs";
import { loadNames } from "../lib/names.mjs";
import { local } from "../lib/store.mjs";
import { language, momentText, preferred, speak, t } from "../lib/words.mjs";
import { announceLine, announceVersion, news } from "./news.mjs";
import { describePlace, placePanel } from "./site.mjs";

// Each module: id, title (a key of the words), fields(context) -> what stands in the form, ask(site, form, context) ->
// the answer, show(answer, place, context). Instead of these three it may export open(place, context) and do it all
// itself. `renamed` maps pointers of errors to fields that stand elsewhere on the page; `button` is a key of the words.
const TASKS = {
  varieties: () => import("./varieties.mjs"),
  thinning: () => import("./thinning.mjs"),
  pruning: () => import("./pruning.mjs"),
  year: () => import("./year.mjs"),
  trouble: () => import("./trouble.mjs"),
  remedy: () => import("./remedy.mjs"),
  list: () => import("./list.mjs"),
  compare: () => import("./compare.mjs"),
  lookup: () => import("./lookup.mjs"),
  handout: () => import("./handout.mjs"),
  ticket: () => import("./ticket.mjs"),
};

const desk = document.getElementById("desk");
const page = { site: {}, tasks: {}, answered: {}, ...local.get("page") };
let panel = null;
let open = null;

function save() {
  page.site = typedOf(panel);
  if (open?.form) page.tasks[open.task.id] = typedOf(open.form);
  local.set("page", page);
}

// What a task may need of the desk.
const context = {
  page,
  save: () => local.set("page", page),
  site: () => read(panel).site ?? {},
  form: () => (open?.form ? read(open.form) : {}),
  // Writes values, by pointer, into the place and the form as if they had been typed, and asks again.
  change: (values) => {
    putBack(panel, { ...typedOf(panel), ...values });
    if (open.form) putBack(open.form, { ...typedOf(open.form), ...values });
    typing();
    return submit();
  },
  go: (task) => { location.hash = task; },
  // Puts what a ticket holds in the place of this page, which can be brought back, and asks the first of its questions.
  take: ({ number, site, tasks, first }) => {
    nextCustomer();
    Object.assign(page, { site, tasks, askAtOnce: first });
    local.set("page", page);
    history.replaceState(null, "", `#${first}`);
    news("ticket", t("ticket.opened", { number }));
    return build();
  },
};

async function submit() {
  const { task, form, answer, general, state } = open;
  clearErrors(panel, form);
  tidy(form);
  save();
  general.textContent = "";
  state.textContent = t("shell.asking");
  try {
    const told = await task.ask(context.site(), read(form), context);
    page.answered[task.id] = typedNow();
    context.save();
    if (open?.task === task) present(told, { go: true });
  } catch (fault) { explain(fault, { answer, general, form, task }); }
  state.textContent = "";
}

function explain(fault, { answer, general, form, task }) {
  answer.parentElement.hidden = !(fault instanceof Held);
  if (fault instanceof Held) {
    fill(answer, el("p", { class: "stale" }, mark("wait"), t("news.held")),
      button(t("news.take_back"), () => { unqueue(task.id); fill(answer); }, { class: "plain" }));
  } else if (fault instanceof Problem) {
    fill(answer);
    general.textContent = showErrors(fault, [form, panel], task.renamed).join(" ");
  } else if (fault instanceof Away) general.textContent = t("news.away");
  else { general.textContent = t("news.broken"); throw fault; }
}

function present(told, { go = false } = {}) {
  const { task, answer, changed } = open;
  changed.hidden = page.answered[task.id] === typedNow();
  task.show(told, answer, context);
  answer.parentElement.hidden = false;
  if (!go) return;
  panel.open = false;
  answer.parentElement.focus({ preventScroll: true });
  answer.parentElement.scrollIntoView({ block: "start" });
}

function typedNow() {
  return JSON.stringify([page.site, page.tasks[open?.task.id]]);
}

// All that they may have come for; on a small screen it folds to one line once it is chosen.
function chooser(current) {
  const tasks = el("ul", { class: "tasks" }, Object.keys(TASKS).map((id) =>
    el("li", {}, el("a", { href: `#${id}`, "aria-current": id === current && "page" }, t(`task.${id}`)))));
  const wide = matchMedia("(min-width: 64rem)").matches;
  return el("nav", { "aria-label": t("shell.came_for") }, el("details", { class: "came-for", open: !current || wide },
    el("summary", {}, el("strong", {}, t("shell.came_for")), " ", current && el("span", { class: "known" }, t(`task.${current}`))), tasks));
}

async function openTask() {
  const id = Object.hasOwn(TASKS, location.hash.slice(1)) ? location.hash.slice(1) : null;
  for (const old of desk.querySelectorAll("nav, .question, .result")) old.remove();
  desk.append(chooser(id));
  open = null;
  if (!id) return;
  const [task, names] = await Promise.all([TASKS[id]().catch(() => null), loadNames()]);
  news("names", names.stale ? t("news.names_old", { time: momentText(names.at) }) : null);
  if (location.hash.slice(1) !== id || desk.querySelector(".question, .result")) return;
  if (!task) { desk.append(el("p", { class: "error result" }, t("news.no_task"))); return; }
  const answer = el("div", { class: "answer" });
  const changed = el("p", { class: "stale", hidden: true }, mark("wait"), t("news.changed"));
  const result = el("section", { class: "result", tabindex: "-1", "aria-label": t("shell.answer") }, changed, answer);
  open = { task, answer, changed };
  if (task.open) { desk.append(result); task.open(answer, context); return; }
  desk.append(questionForm(task), result);
  putBack(open.form, page.tasks[id]);
  result.hidden = true;
  if (page.askAtOnce === id) { delete page.askAtOnce; context.save(); submit(); return; }
  const told = await lastAnswer(id);
  if (open?.task !== task) return;
  if (told && page.answered[id]) present(told);
  if (queue().some((one) => one.task === id)) explain(new Held(), open);
}

function questionForm(task) {
  open.general = el("p", { class: "error", role: "alert" });
  open.state = el("span", { role: "status" });
  open.form = el("form", { novalidate: true, on: { submit: (event) => { event.preventDefault(); submit(); }, input: typing,
    change: typing } },
    task.fields(context), open.general,
    el("p", { class: "send" }, el("button", { type: "submit" }, t(task.button ?? "shell.ask")), open.state));
  return el("section", { class: "question" }, el("h2", {}, t(task.title)), open.form);
}

function typing() {
  save();
  describePlace(panel, page);
  countFolded(panel);
  if (open?.form) countFolded(open.form);
  if (open?.changed) open.changed.hidden = !page.answered[open.task.id] || page.answered[open.task.id] === typedNow();
}

function build() {
  panel = placePanel(context, () => typing());
  putBack(panel, page.site);
  describePlace(panel, page);
  fill(desk, panel);
  tools();
  announceLine();
  return openTask();
}

function tools() {
  const other = language() === "en" ? "es" : "en";
  fill(document.getElementById("tools"), el("p", { class: "line", id: "line", role: "status" }),
    button(t("shell.next_customer"), nextCustomer), button(t("shell.other_language"), () => turn(other), { lang: other }));
}

async function turn(wanted) {
  save();
  await speak(wanted, { remember: true }).catch(() => news("language", t("news.away")));
  await build();
  if (open?.form && page.answered[open.task.id] && !open.answer.parentElement.hidden) await submit();
}

function nextCustomer() {
  save();
  const before = structuredClone(page);
  Object.assign(page, { site: {}, tasks: {}, answered: {}, winters: null });
  local.set("page", page);
  forgetAnswers();
  history.replaceState(null, "", location.pathname);
  build();
  const back = () => { Object.assign(page, before, { answered: {} }); local.set("page", page); news("cleared", null); build(); };
  news("cleared", t("news.cleared"), button(t("news.bring_back"), back, { class: "plain" }));
}

listen((told) => {
  announceLine();
  if (told.kind !== "answered") return;
  const title = t(`task.${told.task}`);
  page.answered[told.task] ??= JSON.stringify([page.site, page.tasks[told.task]]);
  context.save();
  if (open?.task.id !== told.task) {
    news(`answered-${told.task}`, t("news.answered", { title }), el("a", { href: `#${told.task}` }, t("news.show")));
  } else if (told.told) present(told.told);
  else explain(told.problem, open);
});
window.addEventListener("hashchange", openTask);

await Promise.all([speak(preferred()), loadFields(), loadNames()]);
await build();
sendWaiting();
announceVersion();
