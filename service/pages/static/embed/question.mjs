// A question of the service on a page of your own: copy this file, it leans on nothing else. Each field is named by the
// JSON pointer of its value; a field that is left empty is not sent, which says that nobody knows.
const PATIENCE_MS = 25_000;

class Refused extends Error {
  constructor(told) {
    super(told.detail ?? "");
    this.errors = told.errors ?? [];
  }
}

export function mount(form) {
  const { service, key, language } = form.dataset;
  const answer = form.querySelector(".answer");
  const general = form.querySelector("p.fault");

  async function call(method, path, body) {
    const headers = { Accept: "application/json" };
    if (key) headers["Kiosk-Key"] = key;
    if (body) headers["Content-Type"] = "application/json";
    const told = await fetch(`${service}${path}`, { method, headers, body: body && JSON.stringify(body), signal: AbortSignal.timeout(PATIENCE_MS) });
    if (!told.ok) throw new Refused(await told.json().catch(() => ({})));
    return told.json();
  }

  async function offerCrops() {
    const { crops } = await call("GET", "/v1/names");
    const name = (crop) => (language === "es" ? crop.name_es : crop.name);
    form.querySelector("select").append(...crops.map((crop) => new Option(name(crop), crop.id)));
  }

  async function ask() {
    const asked = read(form);
    clear();
    const told = await call("POST", "/v1/variety-suggestions", { ...asked, limit: 3, set_aside_limit: 0, language });
    answer.replaceChildren(
      ...told.answer.suggestions.map((tree) => part("article", part("h3", `${tree.name}, ${tree.crop_name}`),
        ...tree.reasons.filter(({ outcome }) => outcome !== "say").map(({ text }) => part("p", text)))),
      ...(told.answer.suggestions.length ? [] : [part("p", "Nothing in the catalogue suits; please ask us.")]),
      cautions(told.cautions),
      counterButton({ came_for: "choose", language, questions: [{ question: "variety-suggestions", asked }] }),
    );
  }

  // The cautions of an answer are always shown.
  function cautions(told) {
    const place = part("section", ...told.map(({ text }) => part("p", text)));
    place.className = "cautions";
    place.hidden = !told.length;
    return place;
  }

  // The number opens what was asked on the tablet at the counter, until the day ends.
  function counterButton(ticket) {
    const button = part("button", "Ask the counter");
    button.type = "button";
    button.addEventListener("click", () => guarded(async () => {
      const { number } = await call("POST", "/v1/tickets", ticket);
      button.replaceWith(part("p", "Tell the counter this number: ", part("strong", number)));
    }));
    return button;
  }

  // A refusal names each place by the pointer of what was sent; its sentence stands at the field of that name.
  function showFaults(refused) {
    const astray = [];
    for (const { pointer, detail } of refused.errors) {
      const field = form.elements.namedItem(pointer);
      if (!field) { astray.push(detail); continue; }
      field.setAttribute("aria-invalid", "true");
      form.querySelector(`#${field.id}-fault`).textContent = detail;
    }
    general.textContent = refused.errors.length ? astray.join(" ") : refused.message;
    form.querySelector("[aria-invalid]")?.focus();
  }

  function clear() {
    for (const place of form.querySelectorAll(".fault")) place.textContent = "";
    for (const field of form.querySelectorAll("[aria-invalid]")) field.removeAttribute("aria-invalid");
    answer.replaceChildren();
  }

  async function guarded(act) {
    try {
      await act();
    } catch (fault) {
      if (fault instanceof Refused) showFaults(fault);
      else general.textContent = "There is no connection just now. Please ask us.";
    }
  }

  form.addEventListener("submit", (event) => { event.preventDefault(); guarded(ask); });
  return guarded(offerCrops);
}

// The values of the fields at their pointers; a whole number or a decimal in a field for numbers goes as a number.
export function read(form) {
  const body = {};
  for (const field of form.elements) {
    const value = field.value?.trim();
    if (!field.name.startsWith("/") || !value) continue;
    const numeric = field.inputMode === "decimal" && !Number.isNaN(Number(value));
    const path = field.name.slice(1).split("/");
    const last = path.pop();
    path.reduce((place, step, index) => (place[step] ??= /^\d+$/.test(path[index + 1] ?? last) ? [] : {}), body)[last] = numeric ? Number(value) : value;
  }
  return body;
}

function part(tag, ...children) {
  const made = document.createElement(tag);
  made.append(...children);
  return made;
}

for (const form of document.querySelectorAll("form.tree-question")) mount(form);
