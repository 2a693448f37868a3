// The doubt at hand: what it says and the keys that settle it. Settled, the next one comes up.

import { byId, el, many, said } from "./dom.js";
import { called, ident, sort } from "./fields.js";
import { currentOf, go, named } from "./items.js";
import { say } from "./notices.js";
import { edit, state } from "./store.js";
import { light } from "./talk.js";

export const REASONS = [
  "heard so in the talk", "seen so on the device", "unusual, but right", "cannot be told any more",
];

let current = null; // {of, doubt, flag}
let keeping = false;

const same = (one, other) => one.of === other.of && JSON.stringify(one.doubt) === JSON.stringify(other.doubt);

/** All open doubts in the order of the page: those of the record, then part by part. */
export function openDoubts() {
  const all = [];
  const add = (of, flags) => {
    for (const flag of flags ?? []) if (!flag.settled && flag.level !== "note") all.push({ ...named(of, flag), flag });
  };
  add("device", state.flags);
  const ranks = new Map([...state.boards.map((board) => board.id), undefined].map((id, index) => [id, index]));
  const rank = (id) => ranks.get(state.parts.get(id).board) ?? ranks.size;
  for (const id of [...state.order].sort((a, b) => rank(a) - rank(b))) add(`part:${id}`, state.parts.get(id).flags);
  return all;
}

export const doubtAtHand = () => current;

/** The field that the doubt at hand is about, as `of` and `field`; null if it names none. */
export function doubtedField() {
  const field = current?.flag.field;
  if (!field) return null;
  if (sort(current.of) === "part") return { of: current.of, field };
  const port = /^ports\.(\d+)\.(.+)$/.exec(field);
  if (port) return { of: `port:${port[1]}`, field: port[2] };
  return field.startsWith("device.") ? { of: "device", field: field.slice(7) } : null;
}

/** Make a doubt the one at hand, and what it is about the current item. */
export function takeUp(doubt, focus = true) {
  current = doubt;
  keeping = false;
  if (doubt) {
    const of = sort(doubt.of) === "part" ? doubt.of : doubtedField()?.of ?? "device";
    go(of, { focus, tell: false });
    light({ of, field: doubtedField()?.field }, true);
  }
  show();
}

/** The doubt of a flag button: its JSON names it. */
export function takeUpNamed(asked) {
  const flags = asked.of === "record" ? state.flags : state.parts.get(ident(asked.of)).flags;
  const flag = flags.find((one) => same({ of: asked.of, doubt: asked.doubt }, named(asked.of === "record" ? "device" : asked.of, one)));
  if (flag) takeUp({ ...asked, flag }, false);
}

/** The next open doubt, or the one before. */
export function stepDoubt(by) {
  const all = openDoubts();
  if (!all.length) return takeUp(null), say("No doubt is left.");
  const at = current ? all.findIndex((one) => same(one, current)) : -1;
  takeUp(all[at < 0 ? (by > 0 ? firstFrom(all) : all.length - 1) : (at + by + all.length) % all.length]);
}

/** The place of the first doubt at or after the current item. */
function firstFrom(all) {
  const places = state.order.map((id) => `part:${id}`);
  const here = places.indexOf(currentOf());
  const after = all.findIndex((one) => places.indexOf(one.of) >= here);
  return Math.max(after, 0);
}

/** When another item becomes the current one, its first open doubt is the one at hand. */
export function follow(of) {
  const here = of === "device" ? "record" : of;
  current = openDoubts().find((one) => one.of === here) ?? null;
  keeping = false;
  show();
}

/** After a new state: keep the doubt at hand if it is still open, else take up one of the item. */
export function renew() {
  if (!current || !openDoubts().some((one) => same(one, current))) follow(currentOf());
  else show();
}

async function settle(asked, done) {
  const all = openDoubts();
  const at = Math.max(all.findIndex((one) => same(one, current)), 0);
  const answer = await edit(asked);
  if (!answer.ok) return say(answer.problem, true);
  const left = openDoubts();
  takeUp(left.length ? left[at % left.length] : null);
  say(`${done} ${left.length ? `${many(left.length, "doubt")} left.` : "No doubt is left."}`);
  return undefined;
}

/** Take what the doubt at hand suggests. */
export function take() {
  if (!current) return say("No doubt is at hand; n goes to the next one.", true);
  if (!current.flag.suggestion || !current.flag.field) return say("This doubt suggests no value: a keeps, v types one.", true);
  return settle({ op: "take", of: current.of, doubt: current.doubt }, `${current.flag.suggestion} taken.`);
}

/** Keep what is doubted: ask for the reason, a digit or words. */
export function keep() {
  if (!current) return say("No doubt is at hand; n goes to the next one.", true);
  keeping = true;
  show();
  byId("doubt").querySelector("input").focus();
  return undefined;
}

export function keepFor(reason) {
  if (!reason.trim()) return say("A doubt is settled for a reason: a digit, or words.", true);
  keeping = false;
  return settle({ op: "keep", of: current.of, doubt: current.doubt, reason }, "Kept as it is.");
}

export function stopKeeping() {
  keeping = false;
  show();
  go(currentOf(), { tell: false });
}

/** Doubt again what is settled. */
export async function reopen() {
  if (!current?.flag.settled) return;
  const answer = await edit({ op: "reopen", of: current.of, doubt: current.doubt });
  if (!answer.ok) say(answer.problem, true);
  stepDoubt(1);
}

function show() {
  const all = openDoubts();
  const panel = byId("doubt");
  panel.className = current ? current.flag.level : "none";
  if (!current) {
    panel.replaceChildren(el("p", {}, all.length ? button("n", "next doubt", () => stepDoubt(1)) : "No doubt is left.", " ",
      all.length ? `${many(all.length, "doubt")} left` : "Settle each part with s, then the record with S."));
    return;
  }
  const { flag } = current;
  const at = all.findIndex((one) => same(one, current)) + 1;
  const field = flag.field ? `, ${flag.field.replace(/^.*\./, "").replaceAll("_", " ")}` : "";
  panel.replaceChildren(
    el("p", { class: "what" },
      el("b", {}, `${{ error: "Error", warning: "Doubt", note: "Note" }[flag.level]}${at ? ` ${at} of ${all.length}` : ""}`), " ",
      said(called(current.of === "record" ? doubtedField()?.of ?? "record" : current.of)), field, ": ", said(flag.message)),
    keeping ? reasons() : choices(flag));
}

function button(key, label, act) {
  return el("button", { type: "button", onclick: act }, el("kbd", {}, key), " ", label);
}

function choices(flag) {
  if (flag.settled) return el("p", { class: "choices" }, `Settled: ${flag.settled}`, button("e", "doubt again", reopen));
  return el("p", { class: "choices" },
    flag.suggestion && flag.field ? button("t", `take ${flag.suggestion}`, take) : null,
    button("a", "keep as it is", keep),
    doubtedField() ? button("v", "type the value", () => document.dispatchEvent(new CustomEvent("type-value"))) : null,
    button("n", "next", () => stepDoubt(1)));
}

function reasons() {
  const input = el("input", {
    "aria-label": "Reason for keeping it: a digit, or words and Enter", placeholder: "or a reason of your own, Enter", maxlength: "300",
    onkeydown: (event) => {
      if (event.key === "Enter") keepFor(input.value);
      else if (event.key === "Escape") stopKeeping();
      else if (!input.value && REASONS[Number(event.key) - 1]) keepFor(REASONS[Number(event.key) - 1]);
      else return;
      event.preventDefault();
      event.stopPropagation();
    },
  });
  return el("p", { class: "choices" }, "Kept because it was ",
    ...REASONS.map((reason, index) => button(String(index + 1), reason, () => keepFor(reason))), input);
}
