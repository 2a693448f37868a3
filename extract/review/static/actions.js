// What the keys and buttons do to the current item, to the words selected in the talk, to the record.

import { byId, el, words } from "./dom.js";
import { doubtAtHand, doubtedField } from "./doubts.js";
import { askFor, enter, isPart, openField } from "./editor.js";
import { called, fields, ident, sort, thing } from "./fields.js";
import { currentElement, currentOf, element, go, isSettled, shown } from "./items.js";
import { ask, say } from "./notices.js";
import { isThere, toggle } from "./player.js";
import { edit, redo as redoEdit, state, undo as undoEdit } from "./store.js";
import * as talk from "./talk.js";

const notAPart = () => say("This key is for parts: go to one first.", true);

async function make(asked, done) {
  const answer = await edit(asked);
  say(answer.ok ? done : answer.problem, !answer.ok);
  return answer.ok;
}

export async function undo() {
  const what = state.undo;
  const answer = await undoEdit();
  say(answer.ok ? `Undone: ${what}.` : answer.problem, !answer.ok);
}

export async function redo() {
  const what = state.redo;
  const answer = await redoEdit();
  say(answer.ok ? `Done again: ${what}.` : answer.problem, !answer.ok);
}

/** Open the field of the current item that has this key; false if it has none. */
export function openByKey(key) {
  const field = fields(currentOf()).find((one) => one.key === key);
  if (!field) return false;
  const chosen = field.field === "value" ? talk.selectedWords() : null;
  openField(currentOf(), field.field, chosen ? { typed: valueIn(chosen), wordsOf: chosen.words } : {});
  return true;
}

/** Type a value: that of the field in doubt, else a new one; selected words give it, if there are. */
export function typeValue() {
  const chosen = talk.selectedWords();
  const doubted = doubtAtHand() && !chosen ? doubtedField() : null;
  if (doubted) openField(doubted.of, doubted.field);
  else if (!openByKey("=")) say("Nothing here takes a value.", true);
}

/** Type a new value; it may begin with a digit that was pressed. */
export function newValue(digit = "") {
  if (fields(currentOf()).some(({ field }) => field === "value")) openField(currentOf(), "value", { typed: digit });
  else say("Nothing here takes a value.", true);
}

const valueIn = ({ marks }) => marks.find(({ label }) => label === "quantity" || label === "pins")?.readings.at(-1) ?? "";

/** The board of the current item, or the one above it. */
function boardHere() {
  if (isPart()) return thing(currentOf()).board ?? null;
  return sort(currentOf()) === "board" ? ident(currentOf()) : null;
}

/** Ask for the kind of a new part; the selected words of the talk become its first quote. */
export function addPart() {
  const chosen = talk.selectedWords();
  const kind = chosen?.marks.find(({ label }) => label === "kind")?.readings[0] ?? "";
  const before = new Set(state.order);
  askFor({
    label: "kind of the new part", list: "kinds", text: kind, hint: chosen ? `“${chosen.words.text}”` : "",
    enter: async (text) => {
      const done = await enter({
        op: "add-part", kind: text, board: boardHere(), after: isPart() ? ident(currentOf()) : null, words: chosen?.words ?? null,
      }, `new ${text}`);
      if (done) setTimeout(() => go(`part:${state.order.find((id) => !before.has(id))}`));
      return done;
    },
  });
}

export function addBoard() {
  askFor({ label: "name of the new board", enter: (name) => enter({ op: "add-board", name }, `board ${name}`) });
}

export function addPort() {
  askFor({ label: "name of the new port", enter: (name) => enter({ op: "add-port", name }, `port ${name}`) });
}

/** Take out the fact under the focus, else the item. */
export async function takeOut() {
  const field = document.activeElement.closest("[data-field]");
  const of = currentOf();
  if (field?.dataset.text) {
    return make({ op: "set", of, field: field.dataset.field, text: "" }, `${words(field.dataset.field)} taken out; u brings it back.`);
  }
  if (sort(of) === "loose") return make({ op: "drop", loose: looseOf(of) }, `${called(of)} dropped; u brings it back.`);
  if (of === "device") return say("The device cannot be taken out; empty its fields.", true);
  const items = shown().map((one) => one.dataset.of);
  const next = items[items.indexOf(of) + 1] ?? items[items.indexOf(of) - 1];
  const done = await make({ op: "remove", of }, `${called(of)} taken out; its values are unplaced now; u brings it back.`);
  if (done) go(element(next) ? next : "device");
  return done;
}

const looseOf = (of) => {
  const { at, text, value } = thing(of);
  return { at: at ?? null, text, value };
};

/** Give the unplaced quantity to a part, a port or the device. */
export function place() {
  const of = currentOf();
  const loose = looseOf(of);
  askFor({
    label: "give it to", hint: "p12, device or port 1; then the quantity, if it is not plain: p12 ripple current",
    enter: (text) => {
      const [, who, quantity] = /^\s*(device|port \d+|\S+)\s*(.*)$/.exec(text) ?? [];
      const port = /^port (\d+)$/.exec(who ?? "");
      const target = port ? `port:${port[1] - 1}` : who === "device" ? "device" : `part:${idTyped(who ?? "")}`;
      const asked = { op: "place", loose, of: target, quantity: quantity ? quantity.trim().replaceAll(" ", "_") : null };
      return enter(asked, `${loose.value} for ${who}`);
    },
  });
}

/** "12" is p12. */
const idTyped = (text) => (/^\d+$/.test(text) ? `p${text}` : text.trim());

export function join() {
  if (!isPart()) return notAPart();
  const part = ident(currentOf());
  return askFor({
    label: `join ${part} into`, hint: "the number of the other line for the same part",
    enter: async (text) => {
      const into = idTyped(text);
      const done = await enter({ op: "join", part, into }, `${part} joined into ${into}`);
      if (done && state.parts.has(into)) setTimeout(() => go(`part:${into}`));
      return done;
    },
  });
}

export function split() {
  if (!isPart()) return notAPart();
  const part = ident(currentOf());
  return askFor({
    label: `pieces of ${part} for a line of their own`, text: "1",
    enter: (text) => enter({ op: "split", part, count: Number(text) || 0 }, `${part} split`),
  });
}

/** Settle the current part, and go on to the next one that is not. */
export async function settlePart() {
  if (!isPart()) return notAPart();
  const of = currentOf();
  if (thing(of).confirmed && !isSettled(thing(of))) return say(`${ident(of)} is confirmed, but has a doubt: n goes there.`, true);
  const yes = !thing(of).confirmed;
  const done = await make({ op: "confirm", of, yes }, `${ident(of)} ${yes ? "settled" : "open again"}.`);
  if (done && yes) {
    const items = [...document.querySelectorAll('[data-of^="part:"]')].map((one) => one.dataset.of);
    const at = items.indexOf(of);
    const next = [...items.slice(at + 1), ...items.slice(0, at)].find((one) => !isSettled(thing(one)));
    if (next) go(next);
    if (!isSettled(thing(of))) say(`${ident(of)} is confirmed, but has a doubt: n goes there.`, true);
  }
  return done;
}

/** Confirm the record; asks while something is open. */
export async function confirmRecord() {
  const { parts, settled, doubts, confirmed } = state.progress;
  if (!confirmed && (settled < parts || doubts)) {
    const sure = await ask("Not all is settled", `${parts - settled} of ${parts} parts are not settled, ${doubts} doubts are open.`, [
      [false, "Go on reviewing"], [true, "Confirm all the same"],
    ]);
    if (!sure) return;
  }
  await make({ op: "confirm", of: "record", yes: !confirmed }, confirmed ? "The record is open again." : "The record is confirmed.");
}

export function fold() {
  const folded = document.body.classList.toggle("folded");
  document.querySelector('[data-act="fold"]').setAttribute("aria-pressed", String(folded));
  say(folded ? "Settled parts are folded away." : "All parts are shown.");
  if (!currentElement()?.checkVisibility()) go(shown()[0].dataset.of);
}

const NAMED = new Set(["device", "port", "board"]);

/** Ask for the number of a part, a name, or words of any item, and go there. */
export function goTo() {
  askFor({
    label: "go to", hint: "a number, the name of a board or a port, or words of a part",
    enter: async (text) => {
      const found = state.parts.has(idTyped(text)) ? `part:${idTyped(text)}` : find(text);
      if (found) setTimeout(() => go(found));
      else say(`Nothing here has “${text}”.`, true);
      return Boolean(found);
    },
  });
}

/** The board, port or device that is called so, else the next item in which the words stand. */
function find(text) {
  const wanted = text.trim().toLowerCase();
  const items = shown();
  const named = items.find(({ dataset: { of } }) => NAMED.has(sort(of)) && called(of).toLowerCase().startsWith(wanted));
  if (wanted && named) return named.dataset.of;
  const at = items.findIndex((one) => one.dataset.of === currentOf());
  const found = [...items.slice(at + 1), ...items.slice(0, at + 1)].find((one) => one.textContent.toLowerCase().includes(wanted));
  return wanted && found?.dataset.of;
}

/** Play from the current item, or from the caption that has the focus. */
export function play() {
  const cue = document.activeElement.closest(".cue");
  const field = document.activeElement.closest("[data-field]")?.dataset.field ?? doubtedField()?.field;
  if (!isThere()) return say("No recording lies beside the narration.", true);
  return toggle(cue ? talk.cueAt(cue.dataset.cue).at : talk.timeOf(currentOf(), field));
}

export function theme() {
  const dark = document.documentElement.dataset.theme === "dark" || (!document.documentElement.dataset.theme && matchMedia("(prefers-color-scheme: dark)").matches);
  document.documentElement.dataset.theme = dark ? "light" : "dark";
  localStorage.setItem("theme", document.documentElement.dataset.theme);
}

/** From the talk to the record and back. */
export function changeSides() {
  if (document.activeElement.closest("#talk")) go(currentOf(), { tell: false });
  else talk.stepCue(0);
}

/** What can be done with the selected words. */
export function offerWords() {
  const chosen = document.activeElement.closest?.("input, dialog") ? null : talk.selectedWords();
  const offered = byId("words");
  if (!chosen) {
    if (offered) offered.hidden = true;
    return;
  }
  const panel = offered ?? byId("talk").appendChild(el("p", { id: "words", role: "status" }));
  panel.hidden = false;
  panel.replaceChildren(
    el("q", {}, el("bdi", {}, chosen.words.text)), " ",
    el("button", { type: "button", onmousedown: (event) => event.preventDefault(), onclick: addPart }, el("kbd", {}, "+"), " a new part"), " ",
    el("button", { type: "button", onmousedown: (event) => event.preventDefault(), onclick: typeValue }, el("kbd", {}, "v"), ` a value of ${called(currentOf())}`));
}
