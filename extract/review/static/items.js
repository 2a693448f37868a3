// The record in items (device, ports, boards, parts, loose quantities), drawn anew where it changed,
// and which of them is the current one.

import { byId, clock, el, many, said, seconds } from "./dom.js";
import { called, fields, ident, sort, thing } from "./fields.js";
import { state } from "./store.js";

const LEVELS = { error: "error", warning: "doubt", note: "note" };
const moved = [];
let current = "device";

/** Be told when another item becomes the current one. */
export const onMove = (listener) => moved.push(listener);
export const currentOf = () => current;
export const element = (of) => document.querySelector(`[data-of="${CSS.escape(of)}"]`);
export const currentElement = () => element(current);

/** The items in the order of the page, without those that are folded away. */
export const shown = () =>
  [...document.querySelectorAll("[data-of]")].filter((item) => item.checkVisibility());

export function isSettled(part) {
  return Boolean(part.confirmed) && openDoubts(part).length === 0;
}

const openDoubts = (plain) =>
  (plain.flags ?? []).filter((flag) => !flag.settled && flag.level !== "note");

/** Draw what changed: parts by id, and everything else, which is little. */
export function draw(changed, whole) {
  const focused = document.activeElement?.closest?.("[data-of]")?.dataset.of;
  byId("device").replaceChildren(item("device"), ...state.ports.map((_, index) => item(`port:${index}`)));
  drawBoards(new Set(changed), whole);
  byId("loose").replaceChildren(...state.unplaced.map((_, index) => item(`loose:${index}`)));
  byId("loose-section").hidden = state.unplaced.length === 0;
  if (!thing(current)) current = "device";
  mark(current);
  if (focused) currentElement()?.focus({ preventScroll: true });
}

let shape = "";

/** The parts by board; as long as none came, went or moved, only those that changed. */
function drawBoards(changed, whole) {
  const byBoard = new Map([...state.boards.map((board) => [board.id, []]), [undefined, []]]);
  for (const id of state.order) {
    const { board } = state.parts.get(id);
    (byBoard.get(board) ?? byBoard.get(undefined)).push(id);
  }
  const before = shape;
  shape = JSON.stringify([state.boards, [...byBoard]]);
  if (!whole && shape === before) {
    for (const id of changed) element(`part:${id}`).replaceWith(item(`part:${id}`));
    return;
  }
  const kept = new Map();
  if (!whole) for (const old of document.querySelectorAll('[data-of^="part:"]')) kept.set(ident(old.dataset.of), old);
  const sections = [];
  for (const [board, ids] of byBoard) {
    if (board === undefined && !ids.length && state.boards.length) continue;
    const list = el("ul", { class: "items" });
    list.append(...ids.map((id) => (changed.has(id) || !kept.has(id) ? item(`part:${id}`) : kept.get(id))));
    const label = board === undefined ? (state.boards.length ? "Parts on no board" : "Parts") : called(`board:${board}`);
    const head = board === undefined ? el("h2", {}, label) : el("ul", { class: "items heading" }, item(`board:${board}`));
    sections.push(el("section", { "aria-label": label }, head, list));
  }
  byId("boards").replaceChildren(...sections);
}

function item(of) {
  const plain = thing(of);
  const settled = sort(of) === "part" && isSettled(plain);
  const drawn = el("li", {
    class: `item ${sort(of)}${settled ? " settled" : ""}`, tabindex: "-1", "data-of": of,
    "aria-label": label(of, plain, settled),
  });
  if (sort(of) === "loose") return fillLoose(drawn, plain);
  drawn.append(head(of, plain), el("div", { class: "fields" }, ...fields(of).map(fieldButton)));
  if (sort(of) === "part") drawn.append(el("div", { class: "quotes" }, ...(plain.heard ?? []).map(quote)));
  const flags = sort(of) === "part" ? plain.flags ?? [] : of === "device" ? state.flags : [];
  drawn.append(...flags.map((flag) => flagLine(of, flag)));
  return drawn;
}

function head(of, plain) {
  if (sort(of) !== "part") return el("span", { class: "who" }, sort(of));
  const at = clock(seconds(plain.at));
  const sign = plain.confirmed ? "✓" : "";
  return el("span", { class: "who" }, el("b", {}, said(plain.id)), " ", at, " ", el("span", { class: "sign", "aria-hidden": "true" }, sign));
}

function fieldButton({ field, key, label: name, text, plain, list }) {
  const open = el("button", {
    type: "button", tabindex: "-1", class: `field${text ? "" : " empty"}${plain ? " plain" : ""}`,
    "data-field": field, "data-key": key || null, "data-list": list || null, "data-text": text,
    "aria-label": text ? `${name} ${text}` : `${name}, empty`,
  });
  open.append(el("span", { class: "name" }, name), text ? said(shortened(text, field), { class: "text" }) : el("span", { class: "text" }, "+"));
  return open;
}

/** A name of any length in a row of a list: its beginning, the whole in the field when it is typed. */
function shortened(text, field) {
  const shortest = field === "count" ? `${text} ×` : text;
  return shortest.length > 120 ? `${shortest.slice(0, 117)}…` : shortest;
}

function quote(heard) {
  return el("q", {}, said(shortened(heard.text, "")));
}

/** A flag as a button that makes it the current doubt. */
function flagLine(of, flag) {
  const where = flag.field ? `${flag.field.replace(/^(values|device|ratings)\./, "").replace(/^ratings\./, "").replaceAll("_", " ")}: ` : "";
  const settled = flag.settled ? ` Settled: ${flag.settled}.` : "";
  const perhaps = flag.suggestion && !flag.settled ? ` Perhaps ${flag.suggestion}.` : "";
  const message = /[.?!]$/.test(flag.message) || !(perhaps || settled) ? flag.message : `${flag.message}.`;
  return el("button", {
    type: "button", tabindex: "-1", class: `flag ${flag.level}${flag.settled ? " over" : ""}`,
    "data-doubt": JSON.stringify(named(of, flag)),
  }, el("b", {}, flag.settled ? "settled" : LEVELS[flag.level]), " ", said(where + message + perhaps + settled));
}

/** How an edit names a flag. */
export const named = (of, flag) => ({
  of: sort(of) === "part" ? of : "record",
  doubt: { rule: flag.rule, field: flag.field ?? null, message: flag.message },
});

function fillLoose(drawn, loose) {
  drawn.append(
    el("span", { class: "who" }, clock(seconds(loose.at))), el("b", {}, said(loose.value)), " ",
    el("q", {}, said(shortened(loose.text, ""))), loose.why ? el("small", {}, said(loose.why)) : "");
  return drawn;
}

function label(of, plain, settled) {
  if (sort(of) === "loose") return `${plain.value}, said but not placed: ${plain.text}`;
  const facts = fields(of).filter(({ text }) => text).map(({ label: name, text, plain: bare }) => (bare ? text : `${name} ${text}`));
  const doubts = sort(of) === "part" ? openDoubts(plain).length : of === "device" ? openDoubts(state).length : 0;
  const end = [doubts ? many(doubts, "doubt") : "", settled ? "settled" : ""];
  return [sort(of) === "part" ? plain.id : sort(of), ...facts, ...end].filter(Boolean).join(", ").slice(0, 400);
}

function mark(of) {
  for (const old of document.querySelectorAll(".item.current")) {
    old.classList.remove("current");
    old.tabIndex = -1;
    for (const button of old.querySelectorAll("button")) button.tabIndex = -1;
  }
  current = of;
  const now = currentElement();
  if (!now) return;
  now.classList.add("current");
  now.tabIndex = 0;
  for (const button of now.querySelectorAll("button")) button.tabIndex = 0;
}

/** Make an item the current one; `focus` it unless the keyboard is elsewhere. */
export function go(of, { focus = true, tell = true } = {}) {
  if (!thing(of)) return;
  mark(of);
  const now = currentElement();
  if (focus) now.focus({ preventScroll: true });
  now.scrollIntoView({ block: "nearest" });
  if (tell) for (const listener of moved) listener(of);
}

/** Go to the next item (by 1) or the one before (by -1) that is not folded away. */
export function step(by) {
  const items = shown();
  const at = items.findIndex((one) => one.dataset.of === current);
  const next = items[Math.min(Math.max(at + by, 0), items.length - 1)];
  if (next) go(next.dataset.of);
}

/** Go to the first item (1) or the last (-1). */
export const end = (which) => go(shown().at(which === 1 ? 0 : -1).dataset.of);

/** Move the focus among the current item, its fields and its flags, round and round. */
export function stepInside(by) {
  const buttons = [...currentElement().querySelectorAll("button")].filter((button) => button.checkVisibility());
  const places = [currentElement(), ...buttons];
  const at = Math.max(places.indexOf(document.activeElement), 0);
  places.at((at + by) % places.length).focus();
}
