// The drawings on the targets: a few strokes each, in the colours of the page. The word beside them says the same.
import { drawn } from "../lib/dom.mjs";

function picture(...parts) {
  return drawn("svg", { class: "picture", viewBox: "0 0 64 64", "aria-hidden": "true" }, parts);
}

const shape = (kind, d, more = {}) => drawn("path", { class: kind, d, ...more });
const disc = (kind, cx, cy, r) => drawn("circle", { class: kind, cx, cy, r });
const stem = (d = "M32 20C32 14 35 10 39 8") => shape("stroke", d);
const leaf = () => shape("leaf", "M34 15C40 6 50 7 54 11C50 18 41 20 34 15Z");

const FRUITS = {
  pome: () => [shape("fruit", "M32 20C24 13 10 18 10 33C10 47 20 58 26 58C29 58 30 56 32 56C34 56 35 58 38 58C44 58 54 47 54 33C54 18 40 13 32 20Z"), stem(), leaf()],
  pear: () => [shape("fruit", "M32 14C26 14 25 20 24 27C23 33 14 36 14 46C14 55 22 60 32 60C42 60 50 55 50 46C50 36 41 33 40 27C39 20 38 14 32 14Z"), stem("M32 14C32 9 34 6 37 5"), leaf()],
  stone: () => [disc("fruit", 32, 38, 21), shape("crease", "M31 17C22 28 23 46 34 59"), stem("M32 18C32 13 34 10 37 9"), leaf()],
  cherry: () => [disc("fruit", 19, 47, 12), disc("fruit", 45, 45, 12), stem("M19 36C21 24 28 14 38 7"), stem("M45 34C45 22 42 13 38 7"), leaf()],
  fig: () => [shape("fruit", "M33 8C30 20 12 28 12 43C12 54 21 60 32 60C43 60 52 54 52 43C52 28 36 20 33 8Z"), shape("crease", "M32 20V56M24 28C20 38 20 48 25 56M40 28C44 38 44 48 39 56")],
  long: () => [shape("fruit", "M32 12C20 12 15 26 15 38C15 52 23 60 32 60C41 60 49 52 49 38C49 26 44 12 32 12Z"), stem("M32 12C32 8 34 6 37 5"), leaf()],
  crowned: () => [disc("fruit", 32, 38, 20), shape("fruit", "M25 20L24 8L30 13L32 6L34 13L40 8L39 20Z"), shape("crease", "M20 30C17 38 19 46 24 51")],
  calyx: () => [disc("fruit", 32, 40, 20), shape("leaf", "M32 24C24 26 18 22 16 16C24 14 30 18 32 24C34 18 40 14 48 16C46 22 40 26 32 24Z"), stem("M32 22V10")],
};
const FRUIT_OF = {
  apple: "pome", quince: "pome", asian_pear: "pome", european_pear: "pear", fig: "fig", sweet_cherry: "cherry", tart_cherry: "cherry",
  pomegranate: "crowned", persimmon: "calyx", almond: "long", jujube: "long", loquat: "long", pawpaw: "long",
};

export function fruit(crop) {
  return picture(FRUITS[FRUIT_OF[crop] ?? "stone"]());
}

const TREE = (x, y, size) => [shape("wood", `M${x} ${y}V${y - size}`), disc("leaf", x, y - size, size * 0.62)];

export const way = {
  choose: () => picture(shape("stroke", "M6 58H58"), TREE(32, 58, 24), shape("stroke", "M44 18H58M51 11V25")),
  my_tree: () => picture(shape("stroke", "M6 58H58"), TREE(30, 58, 26), disc("fruit", 24, 30, 4), disc("fruit", 37, 27, 4), disc("fruit", 32, 40, 4)),
  trouble: () => picture(shape("leaf", "M32 60C8 50 8 24 32 4C56 24 56 50 32 60Z"), shape("crease", "M32 58V14M32 44L20 34M32 44L44 34"), disc("hole", 22, 26, 4), disc("hole", 42, 42, 5), disc("hole", 38, 22, 3)),
};

export function plot(feet) {
  const side = { 10: 18, 20: 32, 40: 54 }[feet];
  const at = (64 - side) / 2;
  const trees = { 10: [[32, 32]], 20: [[25, 25], [39, 39]], 40: [[16, 16], [32, 32], [48, 16], [16, 48], [48, 48]] }[feet];
  return picture(drawn("rect", { class: "ground", x: at, y: at, width: side, height: side }), trees.map(([x, y]) => disc("leaf", x, y, 6)));
}

export function sun(much) {
  const rays = { full: 8, half: 8, little: 0 }[much];
  const around = Array.from({ length: rays }, (_, index) => {
    const angle = (index * Math.PI) / 4;
    const [x, y] = [Math.cos(angle), Math.sin(angle)];
    return shape("stroke", `M${32 + 20 * x} ${32 + 20 * y}L${32 + 28 * x} ${32 + 28 * y}`);
  });
  const dark = { full: null, half: shape("ink", "M32 18A14 14 0 0 0 32 46Z"), little: shape("ink", "M32 18A14 14 0 1 0 32 46A20 20 0 0 1 32 18Z") }[much];
  return picture(around, disc("sun", 32, 32, 14), dark ?? []);
}

const BRANCH = shape.bind(null, "wood", "M4 46C20 44 40 40 60 28M26 43C30 36 32 28 30 18M42 38C46 44 50 48 58 50");
const ON_BRANCH = [[30, 18], [58, 50], [60, 28], [22, 44], [44, 37]];
const each = (draw) => ON_BRANCH.map(([x, y]) => draw(x, y));
const blade = (x, y) => shape("leaf", `M${x} ${y}C${x - 8} ${y - 4} ${x - 7} ${y - 12} ${x + 1} ${y - 14}C${x + 7} ${y - 9} ${x + 6} ${y - 3} ${x} ${y}Z`);
const LOOKS = {
  bare: () => [],
  buds: () => each((x, y) => shape("leaf", `M${x - 3} ${y}C${x - 4} ${y - 6} ${x} ${y - 9} ${x} ${y - 10}C${x} ${y - 9} ${x + 4} ${y - 6} ${x + 3} ${y}Z`)),
  flowers: () => each((x, y) => [[0, -5], [5, -1], [3, 5], [-3, 5], [-5, -1]].map(([right, down]) => disc("petal", x + right, y + down - 2, 3.4))),
  petals_fall: () => [each((x, y) => blade(x, y)), disc("petal", 14, 56, 3), disc("petal", 34, 60, 3), disc("petal", 50, 58, 3)],
  small_fruit: () => [each((x, y) => blade(x, y)), each((x, y) => disc("green", x + 2, y + 3, 3.6))],
  ripe_fruit: () => [each((x, y) => blade(x, y)), each((x, y) => disc("fruit", x + 1, y + 5, 6))],
  leaves_only: () => each((x, y) => blade(x, y)),
  leaves_fall: () => [[[30, 18], [60, 28]].map(([x, y]) => blade(x, y)), [[12, 62], [30, 60], [48, 63]].map(([x, y]) => shape("leaf", `M${x} ${y}C${x + 3} ${y - 7} ${x + 9} ${y - 6} ${x + 12} ${y - 2}C${x + 8} ${y + 1} ${x + 4} ${y + 1} ${x} ${y}Z`))],
};

export function look(name) {
  return picture(BRANCH(), LOOKS[name]());
}

const PLACES = {
  growth_and_leaves: () => [shape("leaf", "M32 60C8 50 8 24 32 4C56 24 56 50 32 60Z"), shape("crease", "M32 58V14M32 44L20 34M32 44L44 34")],
  fruit_damage: () => [FRUITS.pome(), disc("hole", 26, 38, 5)],
  trunk: () => [shape("bark", "M22 62C24 44 24 22 20 4H44C40 22 40 44 42 62Z"), shape("crease", "M28 12C29 26 29 40 28 54M36 18C35 30 35 42 36 56")],
  cropping: () => [shape("stroke", "M6 60H58"), TREE(32, 60, 28), disc("gone", 24, 30, 5), disc("gone", 39, 26, 5), disc("gone", 34, 42, 5)],
  structure: () => [shape("stroke", "M6 60H58"), shape("wood", "M26 60C28 44 34 34 44 22M31 44C24 36 20 28 20 18M38 30C36 22 38 14 42 8M44 22C50 20 54 16 58 10")],
};

export function where(group) {
  return picture(PLACES[group]());
}
