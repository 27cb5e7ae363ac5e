// Makes elements. What a person or the service says becomes text, never markup.
const SVG = "http://www.w3.org/2000/svg";

function dress(made, attributes) {
  for (const [name, value] of Object.entries(attributes)) {
    if (value === null || value === undefined || value === false) continue;
    if (name === "on") for (const [event, act] of Object.entries(value)) made.addEventListener(event, act);
    else if (name === "value") made.value = value;
    else made.setAttribute(name, value === true ? "" : value);
  }
  return made;
}

// Children may be lists; null and false are left out. Attributes: any, and `on: {event: act}`.
export function el(tag, attributes = {}, ...children) {
  const made = dress(document.createElement(tag), attributes);
  made.append(...children.flat(9).filter((child) => child !== null && child !== undefined && child !== false));
  return made;
}

export function drawn(tag, attributes = {}, ...children) {
  const made = dress(document.createElementNS(SVG, tag), attributes);
  made.append(...children.flat(9).filter((child) => child !== null && child !== undefined && child !== false));
  return made;
}

export function fill(place, ...children) {
  place.replaceChildren(...children.flat(9).filter((child) => child !== null && child !== undefined && child !== false));
  return place;
}

export function list(items, show, attributes = {}) {
  return items.length ? el("ul", attributes, items.map((item) => el("li", {}, show(item)))) : null;
}

export function steps(items, show) {
  return items.length ? el("ol", { class: "steps" }, items.map((item) => el("li", {}, show(item)))) : null;
}

export function button(label, act, attributes = {}) {
  return el("button", { type: "button", ...attributes, on: { click: act } }, label);
}

export function folded(summary, ...children) {
  return el("details", {}, el("summary", {}, summary), ...children);
}

// A drawing as the service made it (SVG text from our own API), as an element of this page.
export function foreign(text) {
  const parsed = new DOMParser().parseFromString(text, "image/svg+xml").documentElement;
  if (parsed.nodeName !== "svg") throw new Error("not a drawing");
  for (const one of parsed.querySelectorAll("script, foreignObject, [style]")) one.remove();
  for (const size of ["width", "height"]) parsed.removeAttribute(size);
  return document.importNode(parsed, true);
}

let made = 0;

export function freshId(start) {
  made += 1;
  return `${start}-${made}`;
}
