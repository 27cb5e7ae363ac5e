// A field for several names: type one, press Enter or “Add”; what is still in the box counts as well.
import { button, el, fill } from "./dom.mjs";
import { t } from "./words.mjs";

export function tokens(told, { id, described }) {
  let names = [];
  const held = el("ul", { class: "held" });
  const input = el("input", { id, "aria-describedby": described, autocomplete: "off", list: told.list, type: "text",
    autocapitalize: "off", spellcheck: "false", enterkeyhint: "done" });
  const place = el("span", { class: "tokens" }, held,
    el("span", { class: "with-button" }, input, button(t("shell.add"), () => { add(); input.focus(); }, { class: "plain" })));

  function show() {
    fill(held, names.map((name) => el("li", {}, el("span", {}, name), button("×", () => remove(name),
      { class: "plain", "aria-label": t("shell.take_away", { name }) }))));
  }
  function changed() {
    show();
    place.dispatchEvent(new Event("input", { bubbles: true }));
  }
  function typedNames() {
    return input.value.split(",").map((name) => name.trim()).filter(Boolean);
  }
  function add() {
    const more = typedNames().filter((name) => !names.includes(name));
    input.value = "";
    names = [...names, ...more];
    changed();
  }
  function remove(name) {
    names = names.filter((one) => one !== name);
    changed();
    input.focus();
  }
  input.addEventListener("keydown", (event) => {
    if (event.key !== "Enter" && event.key !== ",") return;
    if (!input.value.trim()) return;
    event.preventDefault();
    add();
  });
  place.held = () => [...names, ...typedNames().filter((name) => !names.includes(name))];
  place.hold = (wanted) => { names = [...wanted]; input.value = ""; show(); };
  return place;
}
